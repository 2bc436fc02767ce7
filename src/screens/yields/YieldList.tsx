import { useState } from 'preact/hooks';
import { clockText, dayOf } from '#calc/days.ts';
import type { Grouping, GroupYield, ShotGroup } from '#calc/shot-groups.ts';
import { useShop } from '#live/shop.ts';
import type { SessionId } from '#model/entry.ts';
import type { Injector } from '#model/gear.ts';
import type { MouldId } from '#model/mould.ts';
import { hrefTo, type Route } from '#screens/routes.ts';
import { countWords, dateWords } from '#screens/words.ts';
import { ofWords } from '#screens/yield-words.ts';
import { differenceWords } from '#screens/yields/difference-words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Range } from '#ui/Range.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { Tag } from '#ui/Tag.tsx';
import { TwinTable } from '#ui/TwinTable.tsx';
import styles from './YieldsScreen.module.css';

interface Props {
  by: Grouping;
  list: readonly GroupYield[];
  injectors: readonly Injector[];
  /** Sessions picked to stand side by side. */
  pair: readonly SessionId[];
  onPick: (id: SessionId) => void;
}

const shownAtOnce = 20;

const titles: Record<Grouping, string> = {
  mould: 'Mould by mould',
  colour: 'Colour by colour',
  injector: 'Injector by injector',
  heat: 'Heat by heat',
  session: 'Session by session',
  day: 'Day by day',
};

/** One row a group: its counts, what to expect again, and whether it differs from the rest. */
export function YieldList({ by, list, injectors, pair, onPick }: Props) {
  const { clock } = useShop();
  const [shown, setShown] = useState(shownAtOnce);
  const zone = clock.zone();
  const today = dayOf(clock.now(), zone);
  const nameOf = (group: ShotGroup) => {
    switch (by) {
      case 'mould':
        return group.name;
      case 'colour':
        return group.name || 'No colour noted';
      case 'injector':
        return injectors.find(({ id }) => id === group.key)?.name ?? 'No injector on the list';
      case 'heat':
        return group.key ? `Heat ${group.key}` : 'No pot noted';
      case 'session':
        return `${dateWords(dayOf(group.lastAt, zone), today)}, ${clockText(group.lastAt, zone)}`;
      case 'day':
        return dateWords(group.key, today);
    }
  };
  if (list.length === 0) return <Sheet>Nothing was poured yet.</Sheet>;
  const lowest = list.some(({ shares }) => shares && shares[1] < 0.5) ? 0 : 50;
  return (
    <Sheet title={titles[by]}>
      <p>{differenceWords(by, list, nameOf)}</p>
      <ul class={styles.rows}>
        {list.slice(0, shown).map((each) => (
          <li key={each.group.key} class={styles.row}>
            <Row
              each={each}
              name={nameOf(each.group)}
              route={routeOf(by, each.group)}
              from={lowest}
            />
            {by === 'session' && (
              <ActKey
                isPressed={pair.includes(each.group.key as SessionId)}
                label={`Side by side: ${nameOf(each.group)}`}
                onPress={() => onPick(each.group.key as SessionId)}
              >
                Side by side
              </ActKey>
            )}
          </li>
        ))}
      </ul>
      {list.length > shown && (
        <ActKey onPress={() => setShown(shown + 5 * shownAtOnce)}>
          Show {Math.min(list.length - shown, 5 * shownAtOnce)} more
        </ActKey>
      )}
      <TwinTable
        heads={['Name', 'Good', 'Looked at', 'Range of 100']}
        rows={list
          .slice(0, shown)
          .map(({ group, good, checked, shares }) => [
            nameOf(group),
            good,
            checked,
            shares ? rangeWords(shares) : 'too few',
          ])}
      />
    </Sheet>
  );
}

interface RowProps {
  each: GroupYield;
  name: string;
  route: Route | null;
  from: number;
}

function Row({ each, name, route, from }: RowProps) {
  const { group, good, checked, shares, differs } = each;
  const [p, lo, hi] = (shares ?? []).map((share) => Math.round(share * 100));
  const { cold, notChecked, shots } = group;
  const beside = [
    countWords(shots, 'shot'),
    ...(cold.checked > 0 ? [`cold: ${ofWords(cold.good, cold.checked)}`] : []),
    ...(notChecked > 0 ? [`${notChecked} not checked`] : []),
  ];
  return (
    <>
      <h3>{route ? <a href={hrefTo(route)}>{name}</a> : name}</h3>
      <p>
        <b>{checked > 0 ? `${ofWords(good, checked)} good` : 'No warm shot looked at'}</b>
        {differs && `, ${differs} than the rest`}
      </p>
      {shares ? (
        <Range
          p={p ?? 0}
          lo={lo ?? 0}
          hi={hi ?? 100}
          from={from}
          label={`${p} of 100 good, expect ${lo} to ${hi}`}
          scale={`expect ${lo} to ${hi} of 100`}
        />
      ) : (
        <Tag>too few to tell</Tag>
      )}
      <p class={styles.quiet}>{beside.join(', ')}</p>
    </>
  );
}

function routeOf(by: Grouping, { key }: ShotGroup): Route | null {
  if (by === 'mould') return { at: 'mould', mouldId: key as MouldId };
  if (by === 'session') return { at: 'session', sessionId: key as SessionId };
  return by === 'day' ? { at: 'day', day: key } : null;
}

function rangeWords([, lo, hi]: readonly [number, number, number]): string {
  return `${Math.round(lo * 100)} to ${Math.round(hi * 100)}`;
}
