import { useRef, useState } from 'preact/hooks';
import type { Columns } from '#calc/columns.ts';
import { newestWarm } from '#calc/mould-shots.ts';
import {
  addToGroups,
  type Grouping,
  type GroupYield,
  groupYieldSteps,
  type ShotGroups,
} from '#calc/shot-groups.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { SessionId } from '#model/entry.ts';
import { GoesWith, mostAsked } from '#screens/GoesWith.tsx';
import { hrefTo } from '#screens/routes.ts';
import { countWords } from '#screens/words.ts';
import { conf } from '#screens/yield-words.ts';
import { NotLookedAt } from '#screens/yields/NotLookedAt.tsx';
import { ScrapSheet } from '#screens/yields/ScrapSheet.tsx';
import { SideBySide } from '#screens/yields/SideBySide.tsx';
import { YieldList } from '#screens/yields/YieldList.tsx';
import { headsOf } from '#store/heads.ts';
import { byTenths, learntColumns, type Progress } from '#store/learnt.ts';
import { settingsOf } from '#store/settings.ts';
import { breath, inSteps } from '#store/steps.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './YieldsScreen.module.css';

const choices: readonly [Grouping, string][] = [
  ['mould', 'Moulds'],
  ['colour', 'Colours'],
  ['injector', 'Injectors'],
  ['heat', 'Heats'],
  ['session', 'Sessions'],
  ['day', 'Days'],
];
const batchSize = 50;
/** Under so many sessions the answer is there before anybody could read how far it is. */
const longFrom = 300;
const factors = ['time-shut', 'heat', 'injector'] as const;

/** Yields side by side, by what the person wants to compare; the least to expect first. */
export function YieldsScreen() {
  const { book } = useShop();
  const [by, setBy] = useState<Grouping>('mould');
  const [pair, setPair] = useState<readonly SessionId[]>([]);
  const turns = useRef(0);
  const newest = useRef('');
  const [progress, setProgress] = useState<Progress | null>(null);
  const past = useLive(
    async () => {
      const columns = await learntColumns(book, byTenths(setProgress));
      turns.current += 1;
      return {
        turn: turns.current,
        columns,
        warm: newestWarm(columns, mostAsked),
        injectors: await headsOf(book, 'injectors'),
        settings: await settingsOf(book),
      };
    },
    ['columns', 'injectors', 'settings'],
    'past',
  );
  const key = `${by} ${past?.turn ?? 'none yet'}`;
  newest.current = key;
  const list = useLive(
    () => listOf(past?.columns ?? [], by, byTenths(setProgress), () => newest.current !== key),
    [],
    key,
  );
  // What bad ones go with waits for the first list, then stays while another is counted.
  const hadList = useRef(false);
  hadList.current ||= past !== undefined && list !== undefined && list !== null;
  const hasList = hadList.current;
  return (
    <DeskPage
      title="Yields"
      small="Warm shots, worst first"
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'moulds' })} icon="back" word="Moulds" />}
    >
      <div class={styles.choices} role="group" aria-label="Compare">
        {choices.map(([one, word]) => (
          <ActKey key={one} isPressed={by === one} onPress={() => setBy(one)}>
            {word}
          </ActKey>
        ))}
      </div>
      {pair.length === 2 && by === 'session' && <SideBySide pair={pair} />}
      {!(past && list) && progress && progress.sessions >= longFrom && (
        <Sheet>
          <p role="status">{progressWords(progress)}</p>
        </Sheet>
      )}
      {past && list && (
        <YieldList
          key={by}
          by={by}
          list={list}
          injectors={past.injectors}
          pair={pair}
          onPick={(id) =>
            setPair(pair.includes(id) ? pair.filter((one) => one !== id) : [...pair, id].slice(-2))
          }
        />
      )}
      {past && hasList && past.warm.length > 0 && (
        <GoesWith
          shots={past.warm}
          factors={factors}
          injectors={past.injectors}
          tempUnit={past.settings.tempUnit}
          count={2}
        />
      )}
      {past && hasList && <NotLookedAt columns={past.columns} />}
      {past && hasList && <ScrapSheet columns={past.columns} />}
    </DeskPage>
  );
}

/** The list by one grouping, with the page drawing in between; given up when another one is asked for. */
async function listOf(
  columns: readonly Columns[],
  by: Grouping,
  tell: (done: Progress) => void,
  isOver: () => boolean,
): Promise<GroupYield[] | null> {
  const groups: ShotGroups = new Map();
  const of = columns.length;
  for (let at = 0; at < of; at += batchSize) {
    addToGroups(groups, columns.slice(at, at + batchSize), by);
    await breath();
    if (isOver()) return null;
    const done = Math.min(of, at + batchSize);
    tell({ doing: 'counting', done, of, sessions: of });
  }
  return (await inSteps(groupYieldSteps(groups, by, conf), isOver)) ?? null;
}

/** How far it is, in words. */
function progressWords({ doing, done, of }: Progress): string {
  switch (doing) {
    case 'reading':
      return `Reading the log: ${done} of ${countWords(of, 'session')}.`;
    case 'learning':
      return `Looking for cold shots: ${done} of ${countWords(of, 'mould')}.`;
    case 'counting':
      return `Counting: ${done} of ${countWords(of, 'session')}.`;
  }
}
