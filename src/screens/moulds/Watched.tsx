import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { rareWords, type Watch, watchWords } from '#screens/moulds/lately-words.ts';
import { countWords, dateWords } from '#screens/words.ts';
import { RunChart } from '#ui/RunChart.tsx';
import { TwinTable } from '#ui/TwinTable.tsx';

/** The newest warm shots against normal: the picture, the claim, and single shots that were odd. */
export function Watched({ found }: { found: Watch }) {
  const { clock } = useShop();
  const { normal, watched, drift, cavities } = found;
  const usual = Math.round(normal.p0 * 100);
  const spread = Math.max(1, 1 + (cavities - 1) * normal.rho);
  const reach = 3 * Math.sqrt((spread * normal.p0 * (1 - normal.p0)) / cavities);
  const day = (at: number) => dateWords(dayOf(at, clock.zone()), dayOf(clock.now(), clock.zone()));
  const [lead, rest] = watchWords(found, day);
  const rare = rareWords(found, day);
  return (
    <>
      <RunChart
        values={watched.map(({ bad, of }) => (100 * bad) / Math.max(1, of))}
        odd={watched.flatMap(({ isRare }, index) => (isRare ? [index] : []))}
        centre={normal.p0 * 100}
        upper={Math.min(1, normal.p0 + reach) * 100}
        sinceShot={drift.kind === 'as-usual' ? null : drift.sinceShot + 1}
        across={`last ${countWords(watched.length, 'warm shot')}`}
        label={`Bad of 100 in the last ${countWords(watched.length, 'warm shot')}, normally ${usual}`}
      />
      <p>
        <b>{lead}</b> {rest}
      </p>
      {rare && <p>{rare}</p>}
      <TwinTable
        heads={['Shot', 'Day', 'Bad', 'Looked at']}
        rows={watched.map(({ filledAt, bad, of }, index) => [index + 1, day(filledAt), bad, of])}
      />
    </>
  );
}
