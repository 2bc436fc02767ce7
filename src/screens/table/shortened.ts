/** No line begins behind the dots. */
const dots = '…\u2060';

/** A long name keeps its beginning and its end, never smaller letters. */
export function shortened(name: string, most: number): string {
  if (name.length <= most) return name;
  const tail = Math.max(1, Math.floor((most - 1) / 4));
  return `${name.slice(0, most - 1 - tail).trimEnd()}${dots}${name.slice(-tail)}`;
}
