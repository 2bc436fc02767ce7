import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { MouldId } from '#model/mould.ts';
import { MouldKnown } from '#screens/moulds/MouldKnown.tsx';
import { MouldRibbons } from '#screens/moulds/MouldRibbons.tsx';
import { MouldYieldSheet } from '#screens/moulds/MouldYieldSheet.tsx';
import { type Look, lookedAt, mouldYieldOf } from '#screens/moulds/mould-view.ts';
import { WhatGoesWrong } from '#screens/moulds/WhatGoesWrong.tsx';
import { hrefTo } from '#screens/routes.ts';
import { changeHead, headOf, setDeleted } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { settingsOf } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

const looks: readonly [Look, string][] = [
  ['all', 'All'],
  ['warm', 'Warm only'],
  ['month', 'This month'],
];

/** One mould: its picture with the bad ones counted, warm shots first, cold beside. */
export function MouldScreen({ mouldId }: { mouldId: MouldId }) {
  const { book, clock } = useShop();
  const [look, setLook] = useState<Look>('warm');
  const found = useLive(
    async () => ({
      mould: await headOf(book, 'moulds', mouldId),
      columns: await allColumns(book),
      settings: await settingsOf(book),
    }),
    ['moulds', 'columns', 'settings'],
    mouldId,
  );
  if (!found) return null;
  const { mould, columns, settings } = found;
  const back = <ToolKey href={hrefTo({ at: 'moulds' })} icon="back" word="Moulds" />;
  if (!mould) {
    return (
      <DeskPage title="Not here" tool={back} shape="wall">
        <Sheet>
          <p>This mould is not in the logbook.</p>
        </Sheet>
      </DeskPage>
    );
  }
  const seen = lookedAt(columns, look, clock.now(), clock.zone());
  const own = mouldYieldOf(seen, mouldId, look === 'warm' ? 'warm' : 'all');
  const cold = mouldYieldOf(seen, mouldId, 'cold');
  const change = (closed: number[]) =>
    void changeHead(book, 'moulds', mouldId, { closed }, clock.now());
  return (
    <DeskPage title={mould.name} small={sizeWords(own?.tally.shots ?? 0, look)} tool={back}>
      <Acts label="Which shots">
        {looks.map(([one, word]) => (
          <ActKey key={one} isPressed={look === one} onPress={() => setLook(one)}>
            {word}
          </ActKey>
        ))}
      </Acts>
      <MouldYieldSheet
        mould={mould}
        own={own}
        cold={look === 'warm' ? cold : null}
        onClose={(cavity) => change([...mould.closed, cavity].sort((a, b) => a - b))}
        onOpen={(cavity) => change(mould.closed.filter((one) => one !== cavity))}
      />
      {own && <WhatGoesWrong own={own} />}
      {own && <MouldRibbons columns={seen} mouldId={mouldId} today={clock.now()} />}
      <MouldKnown mould={mould} settings={settings} columns={columns} />
      <Sheet title="This mould">
        <Acts>
          <ActKey href={hrefTo({ at: 'mould-facts', mouldId })}>Change its facts</ActKey>
          {mould.deletedAt === null ? (
            <ActKey
              onPress={() =>
                void setDeleted(book, 'moulds', mouldId, clock.now(), clock.now()).then(() => {
                  window.location.hash = hrefTo({ at: 'moulds' });
                })
              }
            >
              Take off the list
            </ActKey>
          ) : (
            <ActKey onPress={() => void setDeleted(book, 'moulds', mouldId, null, clock.now())}>
              Bring back
            </ActKey>
          )}
        </Acts>
        <p>Its past shots stay in the log. Workshop can bring it back.</p>
      </Sheet>
    </DeskPage>
  );
}

function sizeWords(shots: number, look: Look): string {
  const kind = look === 'warm' ? 'warm shots' : 'shots';
  return `${shots} ${shots === 1 ? kind.slice(0, -1) : kind}${look === 'month' ? ' this month' : ''}`;
}
