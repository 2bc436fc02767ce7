type Span = readonly [from: number, to: number];

/** A straight scale: values of one span on the pixels of another. A span of no width is its middle. */
export function scaleOf([from, to]: Span, [start, end]: Span): (value: number) => number {
  const width = to - from;
  return (value) => start + (width === 0 ? 0.5 : (value - from) / width) * (end - start);
}
