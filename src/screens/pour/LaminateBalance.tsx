import { Fragment } from 'preact';
import { verdictOf } from '#calc/balance.ts';
import { linesOf } from '#calc/log.ts';
import type { Table } from '#calc/table.ts';
import type { Entry } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Writes } from '#screens/pour/use-writes.ts';
import { verdicts, verdictWords } from '#screens/verdict-words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Choices } from '#ui/Choices.tsx';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  table: Table;
  entries: readonly Entry[];
  colourways: readonly Colourway[];
  writes: Writes;
}

/** Which side won, one press for each laminate of the session; the same press again takes it back. */
export function LaminateBalance({ table, entries, colourways, writes }: Props) {
  const laminates = colourways.filter(
    ({ id, sides }) => sides.length > 1 && table.pots.some((pot) => pot.colourwayId === id),
  );
  if (laminates.length === 0) return null;
  return (
    <Sheet title="How the two sides came out">
      {laminates.map(({ id, name, sides }) => {
        const found = verdictOf(entries, id);
        const press = (verdict: (typeof verdicts)[number]) => {
          const line = linesOf(entries).find((one) => one.id === found?.by);
          if (line && found?.verdict === verdict) void writes.takeBack(line);
          else void writes.add({ kind: 'laminate-judged', colourwayId: id, verdict });
        };
        const small = { 'a-won': sides[0]?.name, even: undefined, 'b-won': sides[1]?.name };
        return (
          <Fragment key={id}>
            {laminates.length > 1 && <h3>{name}</h3>}
            <Choices label={`How ${name} came out`}>
              {verdicts.map((verdict) => (
                <ActKey
                  key={verdict}
                  isPressed={found?.verdict === verdict}
                  {...(small[verdict] ? { small: small[verdict] } : {})}
                  onPress={() => press(verdict)}
                >
                  {verdictWords[verdict]}
                </ActKey>
              ))}
            </Choices>
          </Fragment>
        );
      })}
    </Sheet>
  );
}
