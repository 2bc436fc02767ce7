import { useState } from 'preact/hooks';
import type { Columns } from '#calc/columns.ts';
import { useShop } from '#live/shop.ts';
import type { Mould } from '#model/mould.ts';
import { MouldKnown } from '#screens/moulds/MouldKnown.tsx';
import { MouldRibbons } from '#screens/moulds/MouldRibbons.tsx';
import { MouldYieldSheet } from '#screens/moulds/MouldYieldSheet.tsx';
import { type Look, lookedAt, mouldYieldOf, seenWords } from '#screens/moulds/mould-view.ts';
import { WhatGoesWrong } from '#screens/moulds/WhatGoesWrong.tsx';
import { hrefTo } from '#screens/routes.ts';
import { layoutWords } from '#screens/shape.ts';
import { TakeOff } from '#screens/TakeOff.tsx';
import { setDeleted } from '#store/heads.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './MouldPage.module.css';

interface Props {
  mould: Mould;
  columns: readonly Columns[];
  settings: SettingsFacts;
  /** True while a session with it runs. */
  isAtTable: boolean;
}

/** Which shots, their word, and what is said while there are none. */
const looks: readonly [Look, string, string][] = [
  ['all', 'All', 'No shot yet.'],
  ['warm', 'Warm only', 'No warm shot yet.'],
  ['month', 'This month', 'No shot this month.'],
];

/** The page of one mould, by the shots that are looked at. */
export function MouldPage({ mould, columns, settings, isAtTable }: Props) {
  const { clock } = useShop();
  const [look, setLook] = useState<Look>('warm');
  const [now, zone] = [clock.now(), clock.zone()];
  const seen = lookedAt(columns, look, now, zone);
  const own = mouldYieldOf(seen, mould.id, look === 'warm' ? 'warm' : 'all');
  return (
    <DeskPage
      title={mould.name}
      small={`${layoutWords(mould.layout)}, ${seenWords(own, look, now, zone)}`}
      tool={<ToolKey href={hrefTo({ at: 'moulds' })} icon="back" word="Moulds" />}
    >
      <div class={styles.looks}>
        <Acts label="Which shots">
          {looks.map(([one, word]) => (
            <ActKey key={one} isPressed={look === one} onPress={() => setLook(one)}>
              {word}
            </ActKey>
          ))}
        </Acts>
      </div>
      <MouldYieldSheet
        mould={mould}
        own={own}
        none={looks.find(([one]) => one === look)?.[2] ?? ''}
        cold={look === 'warm' ? mouldYieldOf(seen, mould.id, 'cold') : null}
        isAtTable={isAtTable}
      />
      <div class={styles.beside}>
        {own && <WhatGoesWrong own={own} />}
        <MouldRibbons columns={seen} mouldId={mould.id} today={now} />
        <MouldKnown mould={mould} settings={settings} columns={columns} />
        <ThisMould mould={mould} />
      </div>
    </DeskPage>
  );
}

function ThisMould({ mould: { id, deletedAt } }: { mould: Mould }) {
  const { book } = useShop();
  return (
    <Sheet title="This mould">
      <ActKey href={hrefTo({ at: 'mould-facts', mouldId: id })}>Change its facts</ActKey>
      <TakeOff
        deletedAt={deletedAt}
        list={{ at: 'moulds' }}
        onSet={(next, at) => setDeleted(book, 'moulds', id, next, at)}
      />
      <p>Its past shots stay in the log. Workshop can bring it back.</p>
    </Sheet>
  );
}
