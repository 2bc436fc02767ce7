import * as z from 'zod/mini';
import { useShop } from '#live/shop.ts';
import { type Colourway, colourwayFacts } from '#model/gear.ts';
import { readForm, useForm } from '#screens/form.ts';
import { hrefTo } from '#screens/routes.ts';
import { addHead, changeHead, setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './ColourForm.module.css';

const facts = z.object(colourwayFacts);

interface Typed extends Record<string, unknown> {
  name: string;
  isPair: boolean;
  nameA: string;
  swatchA: string;
  nameB: string;
  swatchB: string;
}

/** One colour, or the two sides of a laminate: A left, B right. */
export function ColourForm({ colourway }: { colourway: Colourway | null }) {
  const { book, clock } = useShop();
  const { typed, change, refusals, setRefusals } = useForm<Typed>(typedColour(colourway));

  async function save(event: Event) {
    event.preventDefault();
    const read = readForm(facts, colourFrom(typed));
    if (!read.value) return setRefusals(read.refusals);
    if (colourway) {
      await changeHead(book, 'colourways', colourway.id, read.value, clock.now());
    } else await addHead(book, 'colourways', read.value, clock.now());
    window.location.hash = hrefTo({ at: 'colours' });
  }

  const text = (field: 'name' | 'nameA' | 'nameB' | 'swatchA' | 'swatchB') => ({
    value: typed[field],
    onInput: (event: Event) => change({ [field]: (event.target as HTMLInputElement).value }),
  });
  return (
    <form onSubmit={(event) => void save(event)} noValidate>
      <Sheet>
        <Field label="Name" error={refusals.name}>
          {(attributes) => <input {...attributes} {...text('name')} autocomplete="off" />}
        </Field>
        <Acts label="How many colours">
          <ActKey isPressed={!typed.isPair} onPress={() => change({ isPair: false })}>
            One colour
          </ActKey>
          <ActKey isPressed={typed.isPair} onPress={() => change({ isPair: true })}>
            Two sides
          </ActKey>
        </Acts>
        <div class={styles.side}>
          {typed.isPair && (
            <Field label="Side A, left" error={refusals['sides.0.name']}>
              {(attributes) => <input {...attributes} {...text('nameA')} autocomplete="off" />}
            </Field>
          )}
          <Field
            label={typed.isPair ? 'Looks like' : 'It looks like'}
            error={refusals['sides.0.swatch']}
          >
            {(attributes) => <input {...attributes} {...text('swatchA')} type="color" />}
          </Field>
        </div>
        {typed.isPair && (
          <div class={styles.side}>
            <Field label="Side B, right" error={refusals['sides.1.name']}>
              {(attributes) => <input {...attributes} {...text('nameB')} autocomplete="off" />}
            </Field>
            <Field label="Looks like" error={refusals['sides.1.swatch']}>
              {(attributes) => <input {...attributes} {...text('swatchB')} type="color" />}
            </Field>
          </div>
        )}
        <ActKey size="main" sends>
          {colourway ? 'Save the changes' : 'Add this colour'}
        </ActKey>
        {colourway && (
          <ActKey
            onPress={() =>
              void setDeleted(book, 'colourways', colourway.id, clock.now(), clock.now()).then(
                () => {
                  window.location.hash = hrefTo({ at: 'colours' });
                },
              )
            }
          >
            Take off the list
          </ActKey>
        )}
      </Sheet>
    </form>
  );
}

function typedColour(colourway: Colourway | null): Typed {
  const [a, b] = colourway?.sides ?? [];
  return {
    name: colourway?.name ?? '',
    isPair: b !== undefined,
    nameA: a?.name ?? '',
    swatchA: a?.swatch ?? '#8a6a45',
    nameB: b?.name ?? '',
    swatchB: b?.swatch ?? '#e9e4d4',
  };
}

function colourFrom(typed: Typed) {
  const { name, isPair, nameA, swatchA, nameB, swatchB } = typed;
  const a = { name: isPair ? nameA : name, swatch: swatchA };
  return { name, sides: isPair ? [a, { name: nameB, swatch: swatchB }] : [a] };
}
