/** The drawings of the app, on a 24 px grid. A drawing never stands without its word. */
export const drawings = {
  table: <path d="M4 4h16v6H4zM4 14h16v6H4z" />,
  wipe: <path d="M3 6h18v4H3zM12 10v11" />,
  good: (
    <>
      <rect x="3" y="3" width="18" height="18" />
      <path d="m7.500 12.500 3.500 3.500 6-8" />
    </>
  ),
  box: <rect x="3" y="3" width="18" height="18" />,
  tick: <path d="m3 13 6 6L21 5" />,
  fill: <path d="M3 5h18L12 20z" fill="currentColor" stroke="none" />,
  bad: <path d="M3 3h18v11l-7 7H3z" fill="currentColor" stroke="none" />,
  cross: <path d="m5 5 14 14M19 5 5 19" />,
  later: (
    <>
      <rect x="3" y="3" width="18" height="18" stroke-dasharray="2.500 3" />
      <path
        d="M9.500 9.500c0-4 5-3.500 5-.500 0 2-2.500 2-2.500 4.500M12 15.500V18"
        stroke-width="2.200"
      />
    </>
  ),
  unknown: <path d="M8 8c0-6 8-5 8 0 0 3-4 3-4 7M12 18v3" />,
  back: <path d="m14 5-7 7 7 7" />,
  pour: (
    <>
      <path d="M5 4h14M7 4v14a2 2 0 0 0 2 2h6a2 2 0 0 0 2-2V4" />
      <path d="M7 12h10v6a2 2 0 0 1-2 2H9a2 2 0 0 1-2-2z" fill="currentColor" stroke="none" />
    </>
  ),
  moulds: (
    <>
      <rect x="3" y="4" width="18" height="16" />
      <path
        d="M8 8h3v3H8zM13 8h3v3h-3zM8 13h3v3H8zM13 13h3v3h-3z"
        fill="currentColor"
        stroke="none"
      />
    </>
  ),
  colours: (
    <>
      <rect x="3" y="3" width="12" height="12" />
      <path d="M9 9h12v12H9z" fill="currentColor" stroke="none" />
    </>
  ),
  shelf: <path d="M3 20h18M5 20V9h5v11M13 20V4h5v16" />,
  workshop: <path d="M4 7h9M17 7h3M4 17h3M11 17h9M13 4v6M7 14v6" />,
  other: <rect x="3" y="3" width="18" height="18" stroke-dasharray="3 3" />,
} as const;

export type Drawing = keyof typeof drawings;

/** One drawing; hidden from screen readers, because its word stands beside it. */
export function Icon({ of }: { of: Drawing }) {
  return (
    <svg viewBox="0 0 24 24" aria-hidden="true">
      {drawings[of]}
    </svg>
  );
}
