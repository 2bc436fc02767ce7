import { useMemo, useState } from 'preact/hooks';
import type { ColdLine } from '#calc/cold-line.ts';
import type { Columns } from '#calc/columns.ts';
import { mendedSince } from '#calc/mould-changes.ts';
import { type LoggedShot, loggedShots, warmShots } from '#calc/mould-shots.ts';
import type { ShotCounts } from '#calc/yield.ts';
import { useShop } from '#live/shop.ts';
import { useWorked } from '#live/use-worked.ts';
import type { Change } from '#model/change.ts';
import type { Injector } from '#model/gear.ts';
import type { Mould } from '#model/mould.ts';
import { GoesWith } from '#screens/GoesWith.tsx';
import { BringBack } from '#screens/moulds/BringBack.tsx';
import { cavitySaid } from '#screens/moulds/cavity-words.ts';
import { DidItHelp } from '#screens/moulds/DidItHelp.tsx';
import { HowMany } from '#screens/moulds/HowMany.tsx';
import { Lately } from '#screens/moulds/Lately.tsx';
import { type ChangeStart, LogChange } from '#screens/moulds/LogChange.tsx';
import { MouldKnown } from '#screens/moulds/MouldKnown.tsx';
import { MouldParts } from '#screens/moulds/MouldParts.tsx';
import { MouldRibbons } from '#screens/moulds/MouldRibbons.tsx';
import { MouldYieldSheet } from '#screens/moulds/MouldYieldSheet.tsx';
import { type Look, lookedAt, mouldYieldOf, seenWords } from '#screens/moulds/mould-view.ts';
import { ShutAndDents } from '#screens/moulds/ShutAndDents.tsx';
import { ThisMould } from '#screens/moulds/ThisMould.tsx';
import { Trials } from '#screens/moulds/Trials.tsx';
import { WarmUp } from '#screens/moulds/WarmUp.tsx';
import { type MouldNote, WaterNotes } from '#screens/moulds/WaterNotes.tsx';
import { WhatGoesWrong } from '#screens/moulds/WhatGoesWrong.tsx';
import { hrefTo } from '#screens/routes.ts';
import { layoutWords } from '#screens/shape.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './MouldPage.module.css';

/** What the mould's own history teaches. */
export interface Learnt {
  /** Its sessions, with cold shots as its own cold line has them. */
  columns: readonly Columns[];
  shots: readonly LoggedShot[];
  line: ColdLine;
  warmUps: readonly ShotCounts[];
}

interface Props {
  mould: Mould;
  columns: readonly Columns[];
  /** The session that runs, if one does. */
  tonight: readonly Columns[];
  /** The moulds of the shop. */
  shop: readonly Mould[];
  learnt: Learnt;
  settings: SettingsFacts;
  /** True while a session with it runs. */
  isAtTable: boolean;
  /** What was done to it, newest first, and what of that was taken back lately. */
  changes: readonly Change[];
  takenBack: readonly Change[];
  /** When a drift was seen last; null: never. */
  seen: Change | null;
  injectors: readonly Injector[];
  /** The notes that name it, newest first. */
  notes: readonly MouldNote[];
}

/** Which shots, their word, and what is said while there are none. */
const looks: readonly [Look, string, string][] = [
  ['all', 'All', 'No shot yet.'],
  ['warm', 'Warm only', 'No warm shot yet.'],
  ['month', 'This month', 'No shot this month.'],
];

/** The page of one mould, by the shots that are looked at. */
export function MouldPage(props: Props) {
  const {
    mould,
    columns,
    learnt,
    settings,
    isAtTable,
    changes,
    takenBack,
    seen: driftSeenLast,
    injectors,
    tonight,
    shop,
    notes,
  } = props;
  const { clock } = useShop();
  const [look, setLook] = useState<Look>('warm');
  const [logging, setLogging] = useState<ChangeStart | null>(null);
  const [now, zone] = [clock.now(), clock.zone()];
  const since = useMemo(() => mendedSince(changes), [changes]);
  const which = look === 'warm' ? 'warm' : 'all';
  const seen = lookedAt(learnt.columns, look, now, zone);
  const own = mouldYieldOf(seen, mould.id, which);
  const seenShots = useMemo(() => {
    const shots = loggedShots(seen, mould.id);
    return which === 'warm' ? warmShots(shots) : shots;
  }, [learnt, look, mould.id]);
  const said = useWorked(() => cavitySaid(seenShots, since), [seenShots, since]);
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
      <div class={styles.beside}>
        <MouldYieldSheet
          mould={mould}
          own={own}
          shots={seenShots}
          since={since}
          said={said}
          none={looks.find(([one]) => one === look)?.[2] ?? ''}
          cold={look === 'warm' ? mouldYieldOf(seen, mould.id, 'cold') : null}
          isAtTable={isAtTable}
          onLog={setLogging}
        />
        {logging && (
          <LogChange
            mould={mould}
            shots={learnt.shots}
            start={logging}
            onDone={() => setLogging((now) => (now === logging ? null : now))}
          />
        )}
        {said && (
          <>
            <DidItHelp changes={changes} shots={learnt.shots} />
            <BringBack changes={takenBack} />
            <WarmUp warmUps={learnt.warmUps} line={learnt.line} />
          </>
        )}
      </div>
      {said && (
        <div class={styles.beside}>
          {own && <WhatGoesWrong own={own} mould={mould} shots={seenShots} since={since} />}
          <ShutAndDents shots={learnt.shots} factors={factors} setSec={mould.setSec} />
          <HowMany
            mould={mould}
            shots={learnt.shots}
            line={learnt.line}
            columns={columns}
            massUnit={settings.massUnit}
          />
          <Lately
            mouldId={mould.id}
            shots={learnt.shots}
            lastDoneAt={changes[0]?.at ?? 0}
            seen={driftSeenLast}
          />
          <MouldParts mould={mould} shop={shop} columns={[...columns, ...tonight]} />
          <Trials mould={mould} columns={[...columns, ...tonight]} />
          <WaterNotes notes={notes} />
          <MouldRibbons columns={seen} mouldId={mould.id} today={now} />
          <GoesWith
            shots={learnt.shots}
            factors={factors}
            injectors={injectors}
            tempUnit={settings.tempUnit}
            count={1}
            isFolded
          />
          <MouldKnown mould={mould} settings={settings} columns={columns} line={learnt.line} />
          <ThisMould mould={mould} />
        </div>
      )}
    </DeskPage>
  );
}

const factors = ['mould-temperature', 'time-shut', 'heat', 'injector'] as const;
