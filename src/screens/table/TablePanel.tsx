import { useState } from 'preact/hooks';
import { paceOf } from '#calc/pace.ts';
import { partsAt, type Trays } from '#calc/parts.ts';
import type { Seat, Table } from '#calc/table.ts';
import { tonightByBait, tonightOf, uncheckedShots } from '#calc/tonight.ts';
import { warmthAt } from '#calc/warmth.ts';
import type { Said, ShotId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { hrefTo } from '#screens/routes.ts';
import { AddMouldPanel } from '#screens/table/AddMouldPanel.tsx';
import { Fitted } from '#screens/table/Fitted.tsx';
import { InjectorKeys } from '#screens/table/InjectorKeys.tsx';
import { LastPhoto } from '#screens/table/LastPhoto.tsx';
import { MouldPanel } from '#screens/table/MouldPanel.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import { timeWords } from '#screens/table/return-words.ts';
import { countWords } from '#screens/words.ts';
import type { SettingsFacts } from '#store/settings.ts';
import styles from './Table.module.css';

interface Props {
  table: Table;
  /** Null: not known yet. */
  trays: Trays | null;
  settings: SettingsFacts;
  now: Instant;
  /** Null: not known yet. */
  canSound: boolean | null;
  onSaid: (said: Said) => void;
  /** The same, and the panel has done its work. */
  onSaidLast: (said: Said) => void;
  onCheck: (shotId: ShotId) => void;
  onFinish: () => void;
}

const linesShown = 4;

/** The set-up of the table: tonight's counts (a key more where the glass has no room for all of them), the moulds, what was not checked, Finish and Leave. */
export function TablePanel(props: Props) {
  const { table, settings, now, onSaid, onCheck, onFinish } = props;
  const [inside, setInside] = useState<
    { at: 'table' | 'add' | 'tonight' } | { at: 'mould'; seat: Seat }
  >({ at: 'table' });
  const back = () => setInside({ at: 'table' });
  if (inside.at === 'add') return <AddMouldPanel table={table} onSaid={onSaid} onBack={back} />;
  if (inside.at === 'mould') {
    const id = inside.seat.mould.mouldId;
    const seat = table.seats.find(({ mould }) => mould.mouldId === id);
    if (seat) {
      const warmth = warmthAt(table, seat, now);
      const trays = props.trays ? partsAt([seat], props.trays) : [];
      return (
        <MouldPanel {...{ table, seat, warmth, trays, settings, now, onSaid, onBack: back }} />
      );
    }
  }
  const sound = soundWords(props.canSound, settings);
  if (inside.at === 'tonight') {
    return (
      <section class={styles.panel} aria-label="Tonight" data-tonight>
        <TonightLines table={table} now={now} sound={sound} />
        <div class={styles.keyRow}>
          <PressKey onPress={back}>Back</PressKey>
        </div>
      </section>
    );
  }
  const unchecked = uncheckedShots(table);
  const first = unchecked[0];
  return (
    <section class={styles.panel} aria-label="Table">
      <TonightLines table={table} now={now} sound={sound} />
      <div class={styles.keyRow} role="group" aria-label="Moulds on the table">
        {table.seats.map((seat, index) => (
          <PressKey key={seat.mould.mouldId} onPress={() => setInside({ at: 'mould', seat })}>
            <i class={styles.badge}>{index + 1}</i> <Fitted name={seat.mould.name} />
          </PressKey>
        ))}
      </div>
      <div class={styles.keyRow}>
        <PressKey onPress={() => setInside({ at: 'add' })}>
          {table.seats.length < 3 ? 'Add mould' : 'Swap moulds'}
        </PressKey>
        {first && (
          <PressKey onPress={() => onCheck(first.id)}>Check {unchecked.length} now</PressKey>
        )}
        <LastPhoto table={table} />
        <PourerKey table={table} settings={settings} onSaid={onSaid} />
      </div>
      <InjectorKeys table={table} onSaid={props.onSaidLast} />
      <div class={styles.keyRow}>
        <PressKey
          onPress={() => {
            window.location.hash = hrefTo({ at: 'moulds' });
          }}
        >
          Leave
          <span class={styles.keySmall}>stays open</span>
        </PressKey>
        <PressKey kind={styles.kTonight} onPress={() => setInside({ at: 'tonight' })}>
          Tonight
        </PressKey>
        <PressKey kind={styles.strong} onPress={onFinish}>
          Finish
        </PressKey>
      </div>
    </section>
  );
}

/** Two people at one phone: one press tells who pours from here on. */
function PourerKey({ table, settings, onSaid }: Pick<Props, 'table' | 'settings' | 'onSaid'>) {
  const { people = [] } = settings;
  if (people.length < 2) return null;
  const pours = table.pourers.at(-1)?.name;
  const next = people.find((name) => name !== pours) ?? '';
  return (
    <PressKey onPress={() => onSaid({ kind: 'pourer-named', name: next })}>
      {pours ? `${pours} pours` : 'Who pours'}
      <span class={styles.keySmall}>press for {next}</span>
    </PressKey>
  );
}

/** Whether a mould that comes ready is heard. */
function soundWords(canSound: boolean | null, { hearing }: SettingsFacts): string {
  if (canSound === false) return 'muted';
  return hearing === 'heard' ? 'on' : 'not checked';
}

interface TonightProps {
  table: Table;
  now: Instant;
  sound: string;
}

function TonightLines({ table, now, sound }: TonightProps) {
  const { shots, shotsAnHour, ahead } = paceOf(table, now);
  const { good, bad } = tonightOf(table);
  const lines = tonightByBait(table);
  return (
    <div class={styles.tonight}>
      <p>
        <b>{good} good</b> of {good + bad} <span class={styles.notStand}>tonight</span>
      </p>
      <p>
        {countWords(shots, 'shot')}
        {shotsAnHour !== null && `, ${shotsAnHour} an hour now`}
      </p>
      {ahead && (
        <p>
          At this pace {ahead.good} good by {timeWords(ahead.at, table.zone)}
        </p>
      )}
      <p data-of="sound">Sound {sound}</p>
      {lines.slice(-linesShown).map((line) => (
        <p key={`${line.mouldId} ${line.colour}`} data-of="bait">
          <Fitted name={[line.name, line.colour].filter(Boolean).join(', ')} />
          <span>
            {line.good} of {line.good + line.bad}
          </span>
        </p>
      ))}
      {lines.length > linesShown && <p data-of="bait">and {lines.length - linesShown} earlier</p>}
    </div>
  );
}
