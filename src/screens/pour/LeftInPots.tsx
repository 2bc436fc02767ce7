import { useState } from 'preact/hooks';
import { lastLeftMl } from '#calc/last-time.ts';
import { linesOf } from '#calc/log.ts';
import { plastisolGPerMl } from '#calc/pot-course.ts';
import { leftOf, pouredFrom } from '#calc/pot-runs.ts';
import type { Table } from '#calc/table.ts';
import type { Pot } from '#calc/table-pots.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Entry } from '#model/entry.ts';
import { leftMlFrom } from '#screens/amount-text.ts';
import { massWords } from '#screens/amounts.ts';
import type { Writes } from '#screens/pour/use-writes.ts';
import { sessionsBefore } from '#store/last-time.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Choices } from '#ui/Choices.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './PutRight.module.css';

interface Props {
  table: Table;
  entries: readonly Entry[];
  settings: SettingsFacts;
  writes: Writes;
}

/** What was left of each pot: from this the loss is learnt, and how much to heat next time. */
export function LeftInPots({ table, entries, settings, writes }: Props) {
  const { book } = useShop();
  const { sessionId } = table;
  const before = useLive(() => sessionsBefore(book, sessionId), ['columns'], sessionId ?? '');
  const [openId, setOpenId] = useState<Pot['id'] | null>(null);
  const isOver = table.endedAt !== null;
  // A pot that still stands is not emptied from the desk.
  const pots = table.pots.filter((pot) => isOver || !table.potsInUse.includes(pot));
  if (pots.length === 0) return null;
  const lines = linesOf(entries).filter(({ takenBackAt }) => takenBackAt === null);
  const left = leftOf(lines);
  const open = pots.find(({ id }) => id === openId);

  function lastWords(pot: Pot): string | undefined {
    const mouldIds = pouredFrom(pot, table.shots).map(({ mouldId }) => mouldId);
    const ml = before ? lastLeftMl(before, mouldIds) : null;
    return ml === null ? undefined : wordsOf(ml, settings);
  }

  async function tell({ id: potId }: Pot, leftMl: number) {
    const line = lines.findLast(({ said }) => said.kind === 'pot-emptied' && said.potId === potId);
    const says = { kind: 'pot-emptied', potId, leftMl } as const;
    const isWritten = line
      ? await writes.putRight(line, says, line.at)
      : await writes.add(says, table.endedAt ?? table.lastAt);
    // Another pot may have been opened meanwhile.
    if (isWritten) setOpenId((now) => (now === potId ? null : now));
  }

  return (
    <Sheet title="What was left in the pots" aside="for how much to heat">
      <Choices label="Pots">
        {pots.map((pot) => (
          <ActKey
            key={pot.id}
            isPressed={pot.id === openId}
            small={wordsOf(left.get(pot.id), settings)}
            onPress={() => setOpenId(pot.id === openId ? null : pot.id)}
          >
            {[pot.name, pot.batch].filter(Boolean).join(' ')}
          </ActKey>
        ))}
      </Choices>
      {open && (
        <LeftForm
          key={open.id}
          pot={open}
          last={lastWords(open)}
          mass={settings.massUnit ?? 'g'}
          onTell={(leftMl) => void tell(open, leftMl)}
        />
      )}
    </Sheet>
  );
}

function LeftForm({
  pot,
  last,
  mass,
  onTell,
}: {
  pot: Pot;
  /** What was left the last time; undefined: nobody told. */
  last: string | undefined;
  mass: 'g' | 'oz';
  onTell: (leftMl: number) => void;
}) {
  const [text, setText] = useState('');
  const [refusal, setRefusal] = useState<string>();
  const inMl = pot.course.reduce((sum, one) => sum + (one.kind === 'filled' ? one.volumeMl : 0), 0);

  function save() {
    const leftMl = leftMlFrom(text, mass);
    if (leftMl === null) return setRefusal('Write an amount, such as 40 g or ¼ cup.');
    if (leftMl > inMl) {
      return setRefusal(`Only ${massWords(inMl * plastisolGPerMl, mass)} went into it.`);
    }
    onTell(leftMl);
  }

  return (
    <form
      class={styles.form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        save();
      }}
    >
      <Field
        label={`Left of ${pot.name}, ${mass}`}
        hint="On the scale, or a volume such as ¼ cup. Put back or thrown away: both count as left."
        last={last}
        error={refusal}
      >
        {(attributes) => (
          <input
            {...attributes}
            autocomplete="off"
            value={text}
            onInput={({ currentTarget }) => setText(currentTarget.value)}
          />
        )}
      </Field>
      <Acts>
        <ActKey onPress={() => onTell(0)}>Poured dry</ActKey>
        <ActKey sends>Note what was left</ActKey>
      </Acts>
    </form>
  );
}

function wordsOf(leftMl: number | undefined, { massUnit = 'g' }: SettingsFacts): string {
  if (leftMl === undefined) return 'not told';
  return leftMl === 0 ? 'poured dry' : `${massWords(leftMl * plastisolGPerMl, massUnit)} left`;
}
