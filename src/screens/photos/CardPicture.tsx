/** How bait, paper, strip and grey card lie on one photo. */
export function CardPicture() {
  return (
    <svg
      viewBox="0 0 320 180"
      role="img"
      aria-label="White paper with a black strip on its right half, a bait across the edge, a grey card below"
    >
      <path d="M1 1h318v178H1z" fill="#ffffff" stroke="#10151a" stroke-width="2" />
      <path d="M160 20h130v90H160z" fill="#10151a" stroke="none" />
      <rect
        x="70"
        y="48"
        width="180"
        height="34"
        rx="17"
        fill="#9a7a4a"
        stroke="#ffffff"
        stroke-width="2"
      />
      <path d="M40 128h110v36H40z" fill="#767676" stroke="none" />
    </svg>
  );
}
