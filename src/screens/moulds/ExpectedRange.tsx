import { Range } from '#ui/Range.tsx';
import { Tag } from '#ui/Tag.tsx';

interface Props {
  /** [p, lo, hi] of the good share, 0 to 1; null: too few to tell. */
  shares: [number, number, number] | null;
  /** Where the scale begins, in hundreds. */
  from: number;
  /** Writes the scale and what to expect under the line. */
  hasScale?: boolean;
}

/** What happened and what to expect again, or that nothing can be said yet. */
export function ExpectedRange({ shares, from, hasScale }: Props) {
  if (!shares) return <Tag>too few to tell</Tag>;
  const [p, lo, hi] = shares.map((share) => Math.round(share * 100)) as [number, number, number];
  const expect = `expect ${lo} to ${hi}`;
  return (
    <Range
      p={p}
      lo={lo}
      hi={hi}
      from={from}
      label={`${p} of 100 good, ${expect}`}
      {...(hasScale ? { scale: `${expect} of 100` } : {})}
    />
  );
}
