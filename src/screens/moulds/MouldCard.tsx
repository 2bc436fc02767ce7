import type { MouldYield } from '#calc/yields.ts';
import type { Mould } from '#model/mould.ts';
import type { CavitySaid } from '#screens/moulds/cavity-words.ts';
import { ExpectedRange } from '#screens/moulds/ExpectedRange.tsx';
import { MouldPicture } from '#screens/moulds/MouldPicture.tsx';
import { hrefTo } from '#screens/routes.ts';
import { countWords } from '#screens/words.ts';
import { ofWords, worstOf } from '#screens/yield-words.ts';
import styles from './MouldCard.module.css';

interface Props {
  mould: Mould;
  /** Its warm shots; null: none. */
  own: MouldYield | null;
  /** [p, lo, hi] of the good share, 0 to 1; null: too few to tell. */
  shares: [number, number, number] | null;
  /** What may be said of its cavities; null: no warm shot. */
  said: CavitySaid | null;
  /** Where the scale begins, in hundreds. */
  from: number;
}

/** One mould on the wall. */
export function MouldCard({ mould, own, shares, said, from }: Props) {
  const worst = own && (said?.isJudged ? said.worst : (worstOf(own)?.cavity ?? null));
  return (
    <a class={styles.mould} href={hrefTo({ at: 'mould', mouldId: mould.id })}>
      <h2>{mould.name}</h2>
      <MouldPicture mould={mould} own={own} worst={worst} />
      <span class={styles.count}>
        {own ? `${ofWords(own.tally.good, own.tally.checked)} good` : 'No warm shot yet'}
      </span>
      <ExpectedRange shares={shares} from={from} />
      <span class={styles.quiet}>{quietWords(mould, own, said)}</span>
    </a>
  );
}

function quietWords({ closed }: Mould, own: MouldYield | null, said: CavitySaid | null): string {
  const [first] = closed;
  if (closed.length === 1) return `Cavity ${first} closed off`;
  if (closed.length > 1) return `${closed.length} cavities closed off`;
  if (!own) return '';
  if (said?.worst && !closed.includes(said.worst)) {
    const { bad = 0, checked = 0 } = own.byCavity[said.worst - 1] ?? {};
    return `Cavity ${said.worst} fails more than its neighbours: ${bad} bad of ${checked}`;
  }
  const worst = said?.isJudged ? null : worstOf(own);
  if (worst) return `Cavity ${worst.cavity}: ${worst.bad} bad of ${worst.checked}`;
  const { notChecked, shots } = own.tally;
  return notChecked > 0 ? `${notChecked} not checked` : `${countWords(shots, 'shot')} so far`;
}
