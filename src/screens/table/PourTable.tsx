import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { nextStepAt } from '#calc/next-step.ts';
import { tableOf } from '#calc/table.ts';
import { tonightOf } from '#calc/tonight.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { useNow } from '#live/use-now.ts';
import type { SessionLog } from '#live/use-session-log.ts';
import type { Draft } from '#model/draft.ts';
import type { PotId, Said } from '#model/entry.ts';
import { Announcer } from '#screens/table/Announcer.tsx';
import { markedSaid } from '#screens/table/acts.ts';
import { Cards } from '#screens/table/Cards.tsx';
import { type CountHand, dropMeaning } from '#screens/table/count-hand.ts';
import { hasHintLine } from '#screens/table/has-hint-line.ts';
import {
  HintLine,
  PotPanel,
  PotsPanel,
  roundsLeftSumOf,
  StillPouring,
  TablePanel,
} from '#screens/table/late-panels.ts';
import { MainKey } from '#screens/table/MainKey.tsx';
import { keysMeaning, mapMeaning, meaningOf } from '#screens/table/meaning.ts';
import { Notice, noticeOf } from '#screens/table/Notice.tsx';
import { nextPots } from '#screens/table/next-pots.ts';
import { PotKeys } from '#screens/table/PotKeys.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import { RoundLine } from '#screens/table/RoundLine.tsx';
import { UndoKey } from '#screens/table/UndoKey.tsx';
import { useClockJump } from '#screens/table/use-clock-jump.ts';
import { useFinish } from '#screens/table/use-finish.ts';
import { useKeyWalk } from '#screens/table/use-key-walk.ts';
import { useMarks } from '#screens/table/use-marks.ts';
import { useReadyBell } from '#screens/table/use-ready-bell.ts';
import { useReturn } from '#screens/table/use-return.ts';
import { useSteadyMeaning } from '#screens/table/use-steady-meaning.ts';
import { useTableGuards } from '#screens/table/use-table-guards.ts';
import { useTableKeys } from '#screens/table/use-table-keys.ts';
import { useTrays } from '#screens/table/use-trays.ts';
import { useUndo } from '#screens/table/use-undo.ts';
import { useWalk } from '#screens/table/use-walk.ts';
import { useWipe } from '#screens/table/use-wipe.ts';
import { WipeShade } from '#screens/table/WipeShade.tsx';
import { asksOf } from '#store/asks.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { Icon } from '#ui/Icon.tsx';
import styles from './Table.module.css';

interface Props {
  log: SessionLog;
  settings: SettingsFacts;
  draft: Draft;
}

type Panel = { at: 'cards' | 'table' | 'pots' } | { at: 'pot'; potId: PotId | null };

/** The table itself: strip, round line, cards or a panel over them, Undo and the main key. */
export function PourTable({ log, settings, draft }: Props) {
  const shop = useShop();
  const now = useNow(250);
  const table = useMemo(() => tableOf(log.entries), [log.entries]);
  const asks = useMemo(() => asksOf(shop.book, log.sessionId), [shop.book, log.sessionId]);
  const [panel, setPanel] = useState<Panel>({ at: 'cards' });
  const [counting, setCounting] = useState<CountHand | null>(null);
  const [isAwake, setIsAwake] = useState(true);
  const [wipeLeftMs, wipe] = useWipe();
  const marks = useMarks(table, draft);
  const walk = useWalk(marks);
  const root = useRef<HTMLDivElement>(null);
  const keyWalk = useKeyWalk(root);
  const { undo, bringBack } = useUndo(table, log);
  const trays = useTrays(table);
  const canSound = useReadyBell(table, settings);
  const roundsLeft = useLive(() => roundsLeftSumOf(shop.book), ['columns'], 'rounds');
  useTableGuards();

  useEffect(() => shop.wakeLock.hold(setIsAwake), [shop.wakeLock]);
  useEffect(() => shop.holdSession(), [shop.holdSession]);

  const say = (said: Said) => void log.write(said);
  const sayAndClose = (said: Said) => {
    say(said);
    setPanel({ at: 'cards' });
  };
  const { finish, isStuck } = useFinish(log);
  const hasManyPots = table.potsInUse.length > 2;
  const openPotId =
    panel.at === 'pots' || (panel.at === 'pot' && hasManyPots)
      ? nextPots(table)[0]?.id
      : panel.at === 'pot'
        ? panel.potId
        : undefined;
  const back = useReturn(table, now);
  const hasJumped = useClockJump(table, now, say);
  const step = nextStepAt(table, now);
  const { open } = marks;
  const isAsking = back.isAsking && !open;
  const isMuted = canSound === false;
  const notice = noticeOf({ ...back, isAsking, hasJumped, isUnsaved: log.unsaved > 0 || isStuck });
  const meaning = keyWalk.isOn
    ? keysMeaning(keyWalk)
    : counting
      ? dropMeaning(counting)
      : open
        ? mapMeaning(open.results, walk, () => {
            say(markedSaid(open.shot, open.results));
            marks.drop(open.shot.id);
          })
        : meaningOf(table, step, now, say, trays ?? undefined);
  const backKey = keyWalk.isOn
    ? { says: 'one key', act: keyWalk.back }
    : counting
      ? { says: 'keeps count', act: counting.back }
      : open && { says: 'keeps marks', act: marks.closeMap };
  const steady = useSteadyMeaning(meaning);
  useTableKeys({
    table,
    marks,
    walk,
    keyWalk,
    steady,
    undo: counting?.undo ?? undo,
    bringBack: counting?.bringBack ?? bringBack,
    say,
    pedal: settings.pedal,
  });

  return (
    <div
      ref={root}
      class={styles.table}
      data-panel={open ? 'mark' : panel.at === 'cards' ? undefined : panel.at}
      data-pots={table.potsInUse.length === 2 ? 2 : undefined}
      data-side={settings.mainKeySide}
      data-keys={settings.keySize === 'usual' ? undefined : settings.keySize}
      data-seats={table.seats.length}
      data-hint={hasHintLine(table, asks) || undefined}
      data-asks={isAsking || undefined}
    >
      <header class={styles.strip}>
        {isAsking && <StillPouring table={table} onFinish={finish} onCarryOn={back.carryOn} />}
        <PressKey
          kind={styles.kTable}
          isExpanded={panel.at === 'table' && !open}
          onPress={() => setPanel(panel.at === 'table' ? { at: 'cards' } : { at: 'table' })}
        >
          <Icon of="table" />
          Table
        </PressKey>
        <PotKeys
          table={table}
          now={now}
          heatLimit={settings.heatLimit}
          leftOf={roundsLeft?.of}
          openPotId={open ? undefined : openPotId}
          onPress={(potId) => {
            if (potId === openPotId) setPanel({ at: 'cards' });
            else setPanel(hasManyPots ? { at: 'pots' } : { at: 'pot', potId });
          }}
        />
        <PressKey kind={styles.kWipe} onPress={wipe}>
          <Icon of="wipe" />
          Wipe
        </PressKey>
      </header>
      <RoundLine
        table={table}
        count={tonightOf(table)}
        now={now}
        isAwake={isAwake}
        isMuted={isMuted}
      />
      <Announcer
        table={table}
        now={now}
        lines={[
          notice?.words ?? null,
          isAwake ? null : 'screen may sleep',
          isMuted ? 'muted' : null,
        ]}
      />
      {hasHintLine(table, asks) && <HintLine {...{ table, asks, trays, settings }} />}
      <main class={styles.cards}>
        {!open && panel.at === 'pots' && (
          <PotsPanel
            table={table}
            onSaid={sayAndClose}
            onPot={(potId) => setPanel({ at: 'pot', potId })}
          />
        )}
        {notice && <Notice notice={notice} />}
        {!open && panel.at === 'pot' && (
          <PotPanel
            key={panel.potId ?? 'none'}
            table={table}
            pot={table.pots.find((pot) => pot.id === panel.potId) ?? null}
            settings={settings}
            leftOf={roundsLeft?.of}
            now={now}
            onSaid={sayAndClose}
            onRead={say}
            onCounting={setCounting}
          />
        )}
        {!open && panel.at === 'table' && (
          <TablePanel
            table={table}
            trays={trays}
            settings={settings}
            now={now}
            canSound={canSound}
            onSaid={say}
            onSaidLast={sayAndClose}
            onFinish={() => finish()}
            onCheck={(shotId) => {
              setPanel({ at: 'cards' });
              marks.openMap(shotId);
            }}
          />
        )}
        {(open || panel.at === 'cards') && (
          <Cards table={table} now={now} marks={marks} walk={walk} onSaid={say} />
        )}
      </main>
      <nav class={styles.bottom} aria-label="Log">
        {backKey ? (
          <PressKey kind={styles.back} onPress={backKey.act}>
            <b>Back</b>
            <span>{backKey.says}</span>
          </PressKey>
        ) : (
          <UndoKey table={table} onUndo={undo} />
        )}
        <MainKey meaning={meaning} steady={steady} />
      </nav>
      {wipeLeftMs > 0 && <WipeShade leftMs={wipeLeftMs} />}
    </div>
  );
}
