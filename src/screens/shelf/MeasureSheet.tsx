import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { Material } from '#model/material.ts';
import { amountUnitWords, type Units } from '#screens/amounts.ts';
import { FormSheet } from '#screens/FormSheet.tsx';
import { useForm } from '#screens/form.ts';
import { Refusal } from '#screens/Refusal.tsx';
import {
  lastMeasureWords,
  type MeasureKind,
  measureFrom,
  measureKindOf,
  measureUnits,
  measureWords,
  oddMeasureWords,
  typedMeasure,
} from '#screens/shelf/measure-form.ts';
import { TextField } from '#screens/shelf/TextField.tsx';
import { UnitKeys } from '#screens/shelf/UnitKeys.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { changeHead } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';

/** The size of its drop, or the weight of a level teaspoon of it, and the way to measure that. */
export function MeasureSheet({ material, units }: { material: Material; units: Units }) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const [isOpen, setIsOpen] = useState(false);
  const kind = measureKindOf(material);
  if (!kind) return null;
  const isOwn = (kind === 'drop' ? material.dropMl : material.teaspoonG) !== null;
  const usual = kind === 'drop' ? { dropMl: null } : { teaspoonG: null };

  function forget() {
    void act(async () => {
      await changeHead(book, 'materials', material.id, usual, clock.now());
      return null;
    });
  }

  if (isOpen) return <MeasureForm {...{ kind, material, units }} onDone={() => setIsOpen(false)} />;
  return (
    <Sheet title={kind === 'drop' ? 'One drop' : 'A level teaspoon'}>
      <p>{measureWords(kind, material)}</p>
      <ActKey onPress={() => setIsOpen(true)}>
        {kind === 'drop' ? 'Measure its drops' : 'Weigh a teaspoon'}
      </ActKey>
      {isOwn && <ActKey onPress={forget}>Back to the usual</ActKey>}
      <Refusal says={trouble} />
    </Sheet>
  );
}

interface FormProps {
  kind: MeasureKind;
  material: Material;
  units: Units;
  onDone: () => void;
}

function MeasureForm({ kind, material, units, onDone }: FormProps) {
  const { book, clock, touch } = useShop();
  const { typed, change, refusals, refuse, form } = useForm(typedMeasure(kind, units));
  const { act, trouble } = useOneAct();
  const read = measureFrom(kind, typed, material);
  const what = kind === 'drop' ? 'drops' : 'level teaspoons';

  function save() {
    const { changes } = read;
    if (!changes) return refuse(read.refusals);
    void act(async () => {
      await changeHead(book, 'materials', material.id, changes, clock.now());
      touch.confirm();
      onDone();
      return null;
    });
  }

  const odd = read.changes && oddMeasureWords(read.changes, material);
  const isWeighed = typed.unit === 'g' || typed.unit === 'oz';
  return (
    <FormSheet form={form} onSend={save}>
      <h2>{kind === 'drop' ? 'Measure its drops' : 'Weigh a teaspoon'}</h2>
      <p>
        {kind === 'drop'
          ? 'Count many into a cup. Weigh them, or see how much they fill.'
          : 'Weigh many together, each scraped level.'}
      </p>
      <TextField
        label={`How many ${what}`}
        error={refusals.count}
        value={typed.count}
        mode="numeric"
        onText={(count) => change({ count })}
      />
      <TextField
        label={`They ${isWeighed ? 'weigh' : 'fill'}, in ${amountUnitWords[typed.unit]}`}
        last={lastMeasureWords(kind, material)}
        error={refusals.amount}
        value={typed.amount}
        mode="decimal"
        onText={(amount) => change({ amount })}
      />
      <UnitKeys
        label="Measured in"
        units={measureUnits(kind, units)}
        chosen={typed.unit}
        onChoose={(unit) => change({ unit })}
      />
      {read.changes && (
        <p role="status">
          {measureWords(kind, { ...material, ...read.changes })} {odd}
        </p>
      )}
      <ActKey size="main" sends>
        Keep this
      </ActKey>
      <Refusal says={trouble} />
    </FormSheet>
  );
}
