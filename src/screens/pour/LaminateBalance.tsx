import { Fragment } from 'preact';
import { type Verdict, verdictOf } from '#calc/balance.ts';
import { dayOf } from '#calc/days.ts';
import { mixIdsOf } from '#calc/heirs.ts';
import { linesOf, standingOf } from '#calc/log.ts';
import type { Table } from '#calc/table.ts';
import { namelessLaminates } from '#calc/told-mixes.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Entry, SaidOf, SessionId } from '#model/entry.ts';
import type { Colourway, ColourwayId } from '#model/gear.ts';
import type { MixId } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';
import type { Writes } from '#screens/pour/use-writes.ts';
import { verdicts, verdictWords } from '#screens/verdict-words.ts';
import { dateWords } from '#screens/words.ts';
import { lastVerdicts } from '#store/balance.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Choices } from '#ui/Choices.tsx';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  sessionId: SessionId;
  table: Table;
  entries: readonly Entry[];
  colourways: readonly Colourway[];
  writes: Writes;
}

/** A laminate of the session: of the shop, or made up at the table and without a name yet. */
interface Laminate {
  id: ColourwayId | MixId;
  name: string;
  /** How sides A and B are called. */
  sides: readonly (string | undefined)[];
  judged: Pick<SaidOf<'laminate-judged'>, 'colourwayId' | 'mixId'>;
}

/** Which side won, one press for each laminate of the session; the same press again takes it back. */
export function LaminateBalance(props: Props) {
  const { sessionId, table, entries, colourways, writes } = props;
  const { book, clock } = useShop();
  const named = namedIn(table, colourways);
  const laminates = [...named, ...namelessIn(entries)];
  const ids = named.map(({ judged }) => judged.colourwayId).filter((id) => id !== null);
  const last = useLive(() => lastVerdicts(book, sessionId, ids), ['sealed'], `${sessionId} ${ids}`);
  // What another phone said of one that had no name there is said of it.
  const mixes = useLive(() => book.db.getAll('mixes'), ['mixes'], 'mixes');
  const today = dayOf(clock.now(), clock.zone());
  if (laminates.length === 0) return null;
  return (
    <Sheet title="How the two sides came out">
      {laminates.map(({ id, name, sides, judged }) => {
        const of = judged.colourwayId;
        const found = verdictOf(entries, id, of ? mixIdsOf(mixes ?? [], of) : []);
        const before = last?.get(id);
        const press = (verdict: (typeof verdicts)[number]) => {
          const line = linesOf(entries).find((one) => one.id === found?.by);
          if (line && found?.verdict === verdict) void writes.takeBack(line);
          else void writes.add({ kind: 'laminate-judged', ...judged, verdict });
        };
        const small = { 'a-won': sides[0], even: undefined, 'b-won': sides[1] };
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
            {before && <p>{lastWords(before, today)}</p>}
          </Fragment>
        );
      })}
    </Sheet>
  );
}

function lastWords(
  { verdict, at, zone }: { verdict: Verdict; at: Instant; zone: string },
  today: string,
): string {
  return `Last: ${verdictWords[verdict]}, ${dateWords(dayOf(at, zone), today)}`;
}

function namedIn({ pots }: Table, colourways: readonly Colourway[]): Laminate[] {
  return colourways
    .filter(({ id, sides }) => sides.length > 1 && pots.some((pot) => pot.colourwayId === id))
    .map(({ id, name, sides }) => ({
      id,
      name,
      sides: sides.map((side) => side.name),
      judged: { colourwayId: id },
    }));
}

function namelessIn(entries: readonly Entry[]): Laminate[] {
  return namelessLaminates(standingOf(entries)).map((mixId, index, all) => ({
    id: mixId,
    name: `The mix made up here${all.length > 1 ? ` ${index + 1}` : ''}`,
    sides: [],
    judged: { colourwayId: null, mixId },
  }));
}
