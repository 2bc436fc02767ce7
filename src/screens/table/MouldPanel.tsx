import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { mouldMassG, shotMl } from '#calc/mould-size.ts';
import type { PartsAt } from '#calc/parts.ts';
import { type SetClock, setClockAt } from '#calc/set-clock.ts';
import type { Seat, Table } from '#calc/table.ts';
import { cFromF, fFromC } from '#calc/units.ts';
import type { Warmth } from '#calc/warmth.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Said } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { StepKeys } from '#screens/table/StepKeys.tsx';
import { TrayPanel } from '#screens/table/TrayPanel.tsx';
import { TrialPanel } from '#screens/table/TrialPanel.tsx';
import { mouldTempFrom, setTimeFrom } from '#screens/table/where-from.ts';
import { clockWords, countWords, spanWords, tempWords } from '#screens/words.ts';
import { lastReadingsOf } from '#store/last-time.ts';
import type { SettingsFacts } from '#store/settings.ts';
import styles from './Table.module.css';

interface Props {
  table: Table;
  seat: Seat;
  warmth: Warmth;
  /** The trays of parts that it makes or takes from; empty: none. */
  trays: readonly PartsAt[];
  settings: SettingsFacts;
  now: Instant;
  onSaid: (said: Said) => void;
  onBack: () => void;
}

const stepSec = 15;

/** One mould on the table: its facts, or its trial or its tray. */
export function MouldPanel(props: Props) {
  const { seat, trays, onSaid } = props;
  const [inside, setInside] = useState<'facts' | 'trial' | 'tray'>('facts');
  const onBack = () => setInside('facts');
  if (inside === 'trial') return <TrialPanel seat={seat} onSaid={onSaid} onBack={onBack} />;
  if (inside === 'tray') return <TrayPanel trays={trays} onSaid={onSaid} onBack={onBack} />;
  return (
    <Facts {...props}>
      <PressKey onPress={() => setInside('trial')}>Trial</PressKey>
      {trays.length > 0 && <PressKey onPress={() => setInside('tray')}>Count tray</PressKey>}
    </Facts>
  );
}

/** Why its word is what it is, its set time, a thermometer reading. */
function Facts(props: Props & { children: ComponentChildren }) {
  const { table, seat, warmth, settings, now, onSaid, onBack } = props;
  const { mouldId, name } = seat.mould;
  const clock = setClockAt(table, seat, Math.max(0.1, shotMl(seat.mould)), now);
  const { book } = useShop();
  const earlier = useLive(() => lastReadingsOf(book), ['sealed'], 'last readings');
  const lastC = seat.readings.at(-1)?.tempC ?? earlier?.mouldC(mouldId) ?? null;
  const unread = lastC === null ? 'worked out' : `last: ${tempWords(lastC, settings.tempUnit)}`;
  const [readC, setReadC] = useState<number | null>(null);
  const shownC = readC ?? warmth.tempC;
  const setTime = (setSec: number | null, hasNoClock: boolean) =>
    onSaid({ kind: 'set-time-chosen', mouldId, setSec, hasNoClock });
  const stepTime = (by: number) => {
    const from = Math.round((clock.setSec ?? 180) / stepSec) * stepSec;
    setTime(Math.min(3_600, Math.max(stepSec, from + by)), false);
  };
  const stepTemp = (by: number) => {
    const { tempUnit } = settings;
    setReadC(
      tempUnit === 'C' ? Math.round(shownC) + by : cFromF(Math.round(fFromC(shownC)) + by * 2),
    );
  };
  return (
    <section class={styles.panel} aria-label={name}>
      <p class={styles.why}>{whyWords(seat, warmth, settings, now)}</p>
      <StepKeys
        label="Set time"
        value={clock.setSec === null ? 'No clock' : clockWords(clock.setSec)}
        small={clockSource(clock)}
        says={setTimeFrom(clock)}
        lessName="15 seconds less"
        moreName="15 seconds more"
        onLess={() => stepTime(-stepSec)}
        onMore={() => stepTime(stepSec)}
      />
      <StepKeys
        label="Mould reading"
        value={tempWords(shownC, settings.tempUnit)}
        small={readC === null ? unread : 'press to log'}
        says={mouldTempFrom(warmth, seat.mould)}
        lessName="1 degree less"
        moreName="1 degree more"
        onLess={() => stepTemp(-1)}
        onMore={() => stepTemp(1)}
        onLog={
          readC === null
            ? undefined
            : () => {
                onSaid({ kind: 'mould-read', mouldId, tempC: readC });
                setReadC(null);
              }
        }
      />
      <div class={styles.keyWrap}>
        <PressKey onPress={() => setTime(null, clock.from !== 'no-clock')}>
          {clock.from === 'no-clock' ? 'Use a clock' : 'No clock'}
        </PressKey>
        {clock.from === 'chosen' && (
          <PressKey onPress={() => setTime(null, false)}>Work it out</PressKey>
        )}
        <PressKey onPress={onBack}>All moulds</PressKey>
        <PressKey
          onPress={() => {
            const others = table.seats.filter((other) => other.mould.mouldId !== mouldId);
            const moulds = others.map(({ mould }) => mould);
            onSaid({ kind: 'lined-up', moulds, injector: table.injector });
            onBack();
          }}
        >
          Take off
        </PressKey>
        {props.children}
      </div>
    </section>
  );
}

/** Why the mould is said to be cold or warm: shots, idle time, temperature, where the weight comes from. */
function whyWords(seat: Seat, warmth: Warmth, settings: SettingsFacts, now: Instant): string {
  // A number and its unit stay on one line.
  const temp = `about ${tempWords(warmth.tempC, settings.tempUnit).replace(' ', '\u00a0')}`;
  const last = warmth.lastShotAt;
  const facts =
    last === null
      ? `No shot yet, ${temp}.`
      : `${countWords(warmth.shots, 'shot')}, last ${spanWords(now - last)} ago, ${temp}.`;
  if (!warmth.isFlagged) {
    const { material: body } = seat.mould;
    if (body === 'aluminium') return `${facts} Its first shots were never worse: no cold flag.`;
    const material = body === 'stone' ? 'Stone' : 'Silicone';
    return `${facts} ${material} hardly chills the plastic: no cold flag.`;
  }
  if (warmth.readings > 0) return `${facts} Set by ${countWords(warmth.readings, 'reading')}.`;
  const { from } = mouldMassG(seat.mould);
  return `${facts} ${from === 'weighed' ? 'Worked out from its weight.' : 'Weight guessed from its cavities.'}`;
}

function clockSource({ from, opens }: SetClock): string {
  switch (from) {
    case 'no-clock':
      return 'you open by eye';
    case 'chosen':
      return 'your choice';
    case 'own-opens':
      return `your last ${opens} opens`;
    case 'predicted':
      return 'worked out';
    case 'too-warm':
      return 'mould too warm: let it cool';
    default:
      return 'first guess';
  }
}
