import { useEffect, useRef, useState } from 'preact/hooks';
import { isFooting, isToldLater, newestFirst } from '#calc/entry-list.ts';
import type { Line } from '#calc/log.ts';
import { type Right, topUpsAs } from '#calc/rights.ts';
import type { Table } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import type { EntryId, Said } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mix } from '#model/mix.ts';
import { entryWords, type Units } from '#screens/entry-words.ts';
import { AddNote } from '#screens/pour/AddNote.tsx';
import { EntryRow, type Panel } from '#screens/pour/EntryRow.tsx';
import { fateWords } from '#screens/pour/fate-words.ts';
import { isToCheck, matterOf, openLine } from '#screens/pour/open-line.ts';
import { PutRight } from '#screens/pour/PutRight.tsx';
import type { Writes } from '#screens/pour/use-writes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Entries.module.css';

/** The line the hand is at, and what is open under it. */
export interface Chosen {
  id: EntryId;
  panel: Panel | null;
}

interface Props {
  table: Table;
  lines: readonly Line[];
  units: Units;
  colourways: readonly Colourway[];
  mixes: readonly Mix[];
  chosen: Chosen | null;
  onChoose: (chosen: Chosen | null) => void;
  writes: Writes;
}

const shownAtFirst = 12;

/** How much of the log is shown: the newest outcomes, all outcomes, or every line. */
const reaches = ['newest', 'outcomes', 'all'] as const;
type Reach = (typeof reaches)[number];

/** Every line of the session, newest first. A fill that was logged is told by its outcome until all are asked for. */
export function Entries(props: Props) {
  const { table, lines, units, colourways, mixes, chosen, onChoose, writes } = props;
  const { clock } = useShop();
  const [reach, setReach] = useState<Reach>('newest');
  const sorted = newestFirst(lines);
  const outcomes = sorted.filter((line) => !isToldLater(line, table));
  const newest = outcomes.slice(0, shownAtFirst);
  const needed = reachOf(chosen?.id ?? null, newest, outcomes);
  const furthest = reaches.indexOf(needed) > reaches.indexOf(reach) ? needed : reach;
  const shown = { newest, outcomes, all: sorted }[furthest];
  const list = useRef<HTMLOListElement>(null);
  const chosenId = chosen?.id;
  const isFromElsewhere = chosen?.panel === null;

  // What was unfolded to show a line stays unfolded when the hand goes to another.
  useEffect(() => setReach(furthest), [furthest]);
  useEffect(() => {
    if (!chosenId) return;
    const row = list.current?.querySelector<HTMLElement>(`#entry-${chosenId}`);
    row?.focus({ preventScroll: true });
    row?.scrollIntoView({ block: isFromElsewhere ? 'center' : 'nearest' });
  }, [chosenId]);

  /** Closes the panel once the write is on disk, and keeps the hand at the line. */
  async function settle(id: EntryId, written: Promise<boolean>) {
    if (!(await written)) return;
    onChoose({ id, panel: null });
    list.current?.querySelector<HTMLElement>(`#entry-${id}`)?.focus({ preventScroll: true });
  }

  return (
    <Sheet title="Entries" aside={`${lines.length} in all`} place="beside">
      <AddNote onAdd={writes.add} />
      {writes.trouble && (
        <p class={styles.refusal} role="alert">
          {writes.trouble}
        </p>
      )}
      <ol class={styles.list} reversed ref={list}>
        {shown.map((line) => {
          const isChosen = chosen?.id === line.id;
          const panel = isChosen ? chosen.panel : null;
          return (
            <EntryRow
              key={line.id}
              line={line}
              words={entryWords(table, line, units)}
              fate={fateWords(table, line, units)}
              zone={table.zone}
              isChosen={isChosen}
              panel={panel}
              rightWord={isToCheck(line, table) ? 'Check now' : 'Put right'}
              hasTimeKey={matterOf(line.said) === 'results' || isToCheck(line, table)}
              canTakeBack={!isFooting(line, lines)}
              onPanel={(next) => onChoose({ id: line.id, panel: next === panel ? null : next })}
              onTakeBack={() => void settle(line.id, writes.takeBack(line))}
              onBringBack={() => void settle(line.id, writes.bringBack(line))}
            >
              {panel && (
                <PutRight
                  panel={panel}
                  open={openLine(line, lines, clock.now(), { table, units, colourways, mixes })}
                  onSave={(says, at) => {
                    const also = followsFrom(line, says, lines);
                    void settle(line.id, writes.putRight(line, says, at, also));
                  }}
                  onCheck={(said) => void settle(line.id, writes.add(said))}
                  onLeave={() => onChoose({ id: line.id, panel: null })}
                />
              )}
            </EntryRow>
          );
        })}
      </ol>
      {shown.length < lines.length && (
        <ActKey onPress={() => setReach('all')}>Show all {lines.length} entries</ActKey>
      )}
    </Sheet>
  );
}

/** A pot that was of another colour was topped up with that one's doses, too. */
function followsFrom({ said }: Line, says: Said, lines: readonly Line[]): Right[] {
  const isMix = said.kind === 'pot-mixed' && says.kind === 'pot-mixed';
  if (!isMix || said.colourwayId === says.colourwayId) return [];
  return topUpsAs(
    lines.filter(({ takenBackAt }) => takenBackAt === null),
    says,
  );
}

function reachOf(id: EntryId | null, newest: readonly Line[], outcomes: readonly Line[]): Reach {
  if (id === null || newest.some((line) => line.id === id)) return 'newest';
  return outcomes.some((line) => line.id === id) ? 'outcomes' : 'all';
}
