import { dayOf, instantOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { stockWords, type Units } from '#screens/amounts.ts';
import { FormSheet } from '#screens/FormSheet.tsx';
import { useForm } from '#screens/form.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { AmountFields } from '#screens/shelf/AmountFields.tsx';
import { lastMove } from '#screens/shelf/last-move.ts';
import {
  afterWords,
  moveFrom,
  oddWords,
  type TypedKind,
  typedMove,
} from '#screens/shelf/move-form.ts';
import type { Jar } from '#screens/shelf/shelf-view.ts';
import { TextField } from '#screens/shelf/TextField.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { changeHead } from '#store/heads.ts';
import { moveStock } from '#store/stock.ts';
import { ActKey } from '#ui/ActKey.tsx';

interface Props {
  kind: TypedKind;
  jar: Jar;
  units: Units;
  /** Called once it is on disk. */
  onDone: () => void;
}

const words = {
  bought: ['Bought', 'Write it down'],
  counted: ['Weighed or counted', 'Start from here'],
  lost: ['Lost', 'Write it down'],
} as const;

/** One movement while it is typed: how much, on which day, and why. */
export function MoveForm({ kind, jar, units, onDone }: Props) {
  const { book, clock, touch } = useShop();
  const { material } = jar;
  const today = dayOf(clock.now(), clock.zone());
  const { typed, change, refusals, refuse, form } = useForm(typedMove(kind, jar, units, today));
  const { act, trouble } = useOneAct();
  const last = lastMove(kind, jar, units);
  const read = moveFrom(kind, typed, material, units);

  function save() {
    const at = typed.day === today ? clock.now() : instantOf(typed.day, '12:00', clock.zone());
    const day = at === null ? { day: 'Choose a day.' } : dayRefusal(at, clock.now());
    if (!read.says || at === null || day) return refuse({ ...read.refusals, ...day });
    const { says, tareG } = read;
    void act(async () => {
      const writtenAt = clock.now();
      await moveStock(book, material.id, says, { at, writtenAt, note: typed.note.trim() });
      if (tareG !== null) await changeHead(book, 'materials', material.id, { tareG }, writtenAt);
      touch.confirm();
      onDone();
      return null;
    });
  }

  const after = typed.day === today && read.says ? afterWords(read.says, jar, units) : '';
  const odd = read.says && oddWords(read.says, jar, units);
  return (
    <FormSheet form={form} onSend={save}>
      <h2>{words[kind][0]}</h2>
      <AmountFields
        {...{ kind, typed, material, units, refusals }}
        last={last.amount}
        onChange={change}
      />
      {kind === 'counted' && typed.isOnScale && read.says?.kind === 'counted' && (
        <p role="status">That is {stockWords(read.says.level, material.unit, units)} of it.</p>
      )}
      {kind === 'bought' && (
        <>
          <TextField
            label="Paid for all of it"
            last={last.money}
            error={refusals.money}
            value={typed.money}
            mode="decimal"
            onText={(money) => change({ money })}
          />
          <TextField
            label="Lot"
            hint="As printed on it. Leave it empty if there is none."
            last={last.lot}
            error={refusals.lot}
            value={typed.lot}
            onText={(lot) => change({ lot })}
          />
        </>
      )}
      <TextField
        label="Day"
        type="date"
        error={refusals.day}
        value={typed.day}
        onText={(day) => change({ day })}
      />
      <TextField
        label={kind === 'lost' ? 'Why' : 'Note'}
        hint={kind === 'lost' ? 'Spilled, given away, gone off.' : 'A word for later, or nothing.'}
        last={last.note}
        value={typed.note}
        onText={(note) => change({ note: note.slice(0, 2_000) })}
      />
      {odd && <p role="status">{odd}</p>}
      <ActKey size="main" sends {...(after ? { small: after } : {})}>
        {words[kind][1]}
      </ActKey>
      <Refusal says={trouble} />
    </FormSheet>
  );
}

function dayRefusal(at: number, now: number): { day: string } | null {
  return at > now ? { day: 'This day has not come yet.' } : null;
}
