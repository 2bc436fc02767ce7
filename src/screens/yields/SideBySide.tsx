import { clockText, dayOf } from '#calc/days.ts';
import { type SessionFacts, type TwoSessions, twoSessions } from '#calc/two-sessions.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { defects } from '#model/defect.ts';
import type { SessionId } from '#model/entry.ts';
import { clockWords, dateWords, defectWords, joined, tempWords } from '#screens/words.ts';
import { ofWords } from '#screens/yield-words.ts';
import { entriesOf } from '#store/sessions.ts';
import { settingsOf } from '#store/settings.ts';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './YieldsScreen.module.css';

/** Two sessions in two columns: what differed, and nothing that did not. */
export function SideBySide({ pair }: { pair: readonly SessionId[] }) {
  const { book, clock } = useShop();
  const found = useLive(
    async () => {
      const [a, b] = await Promise.all(
        pair.map(async (id) => ({ id, entries: await entriesOf(book, id) })),
      );
      if (!a || !b || a.entries.length === 0 || b.entries.length === 0) return null;
      const inOrder = (a.entries[0]?.at ?? 0) <= (b.entries[0]?.at ?? 0) ? [a, b] : [b, a];
      const { tempUnit } = await settingsOf(book);
      return { two: twoSessions(inOrder[0] ?? a, inOrder[1] ?? b), tempUnit };
    },
    ['sealed', 'entries', 'settings'],
    pair.join(' '),
  );
  if (!found) return null;
  const { two, tempUnit } = found;
  const zone = clock.zone();
  const today = dayOf(clock.now(), zone);
  const named = [two.a, two.b].map(
    ({ startedAt }) => `${dateWords(dayOf(startedAt, zone), today)}, ${clockText(startedAt, zone)}`,
  );
  const rows = rowsOf(two, tempUnit).filter(([, a, b]) => a !== b);
  return (
    <Sheet title="Side by side">
      <p>{verdictWords(two)}</p>
      {rows.length === 0 ? (
        <p>Nothing else that was noted differed.</p>
      ) : (
        <table class={styles.facts}>
          <thead>
            <tr>
              <th scope="col">What differed</th>
              {named.map((name) => (
                <th key={name} scope="col">
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(([word, a, b]) => (
              <tr key={word}>
                <th scope="row">{word}</th>
                <td>{a}</td>
                <td>{b}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </Sheet>
  );
}

function rowsOf({ a, b }: TwoSessions, unit: 'C' | 'F'): [string, string, string][] {
  const row = (word: string, of: (facts: SessionFacts) => string): [string, string, string] => [
    word,
    of(a),
    of(b),
  ];
  const time = (sec: number) => (sec > 0 ? clockWords(sec) : 'not known');
  return [
    row('Moulds', ({ moulds }) => joined(moulds.toSorted())),
    row('Colours', ({ colours }) => joined(colours.toSorted())),
    row('Injector', ({ injector }) => injector || 'none noted'),
    row('Who poured', ({ people }) => joined(people) || 'not noted'),
    row('Shop', ({ ambientC }) => tempWords(ambientC, unit)),
    row('First pot', ({ pourC }) => tempWords(pourC, unit)),
    row('Most heats', ({ heats }) => String(heats)),
    row('Usually shut', ({ shutSec }) => time(shutSec)),
    row('Round to round', ({ paceSec }) => time(paceSec)),
    row('Shots', ({ shots }) => String(shots)),
    row('Cold shots', ({ coldShots }) => String(coldShots)),
    ...defects.map((defect) =>
      row(defectWords[defect], (facts) => String(facts.defects.get(defect) ?? 0)),
    ),
  ];
}

/** Whether the bad shares differ by more than luck; never why. */
function verdictWords({ verdict }: TwoSessions): string {
  if (verdict.kind === 'too-few') return 'Too few warm shots to tell the two apart.';
  const { before, after } = verdict;
  const counts = `Bad of warm baits: ${ofWords(before.bad, before.total)}, then ${ofWords(after.bad, after.total)}.`;
  switch (verdict.kind) {
    case 'helped':
      return `${counts} The later one had fewer, more than luck would do. Why is not told by two sessions.`;
    case 'made-worse':
      return `${counts} The later one had more, more than luck would do. Why is not told by two sessions.`;
    case 'no-real-difference':
      return `${counts} No real difference.`;
    case 'unclear':
      return `${counts} That is too close to tell the two apart.`;
  }
}
