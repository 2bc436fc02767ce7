import { useRef, useState } from 'preact/hooks';
import { loggedShots, warmShots } from '#calc/mould-shots.ts';
import { addToGroups, type Grouping, groupYieldSteps, type ShotGroups } from '#calc/shot-groups.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { SessionId } from '#model/entry.ts';
import { GoesWith } from '#screens/GoesWith.tsx';
import { hrefTo } from '#screens/routes.ts';
import { conf } from '#screens/yield-words.ts';
import { ScrapSheet } from '#screens/yields/ScrapSheet.tsx';
import { SideBySide } from '#screens/yields/SideBySide.tsx';
import { YieldList } from '#screens/yields/YieldList.tsx';
import { headsOf } from '#store/heads.ts';
import { breath, inSteps, learntColumns } from '#store/learnt.ts';
import { settingsOf } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
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
const batchSize = 200;
const factors = ['time-shut', 'heat', 'injector'] as const;

/** Yields side by side, by what the person wants to compare; the least to expect first. */
export function YieldsScreen() {
  const { book } = useShop();
  const [by, setBy] = useState<Grouping>('mould');
  const [pair, setPair] = useState<readonly SessionId[]>([]);
  const turns = useRef(0);
  const past = useLive(
    async () => {
      const columns = await learntColumns(book);
      const warm = warmShots(loggedShots(columns));
      turns.current += 1;
      return {
        turn: turns.current,
        columns,
        warm,
        injectors: await headsOf(book, 'injectors'),
        settings: await settingsOf(book),
      };
    },
    ['columns', 'injectors', 'settings'],
    'past',
  );
  const list = useLive(
    async () => {
      const groups: ShotGroups = new Map();
      for (let at = 0; past && at < past.columns.length; at += batchSize) {
        addToGroups(groups, past.columns.slice(at, at + batchSize), by);
        await breath();
      }
      return await inSteps(groupYieldSteps(groups, by, conf));
    },
    [],
    `${by} ${past?.turn ?? 'none yet'}`,
  );
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
      {past && past.warm.length > 0 && (
        <GoesWith
          shots={past.warm}
          factors={factors}
          injectors={past.injectors}
          tempUnit={past.settings.tempUnit}
          count={2}
        />
      )}
      <ScrapSheet columns={past?.columns ?? []} />
    </DeskPage>
  );
}
