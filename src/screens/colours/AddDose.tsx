import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { Material, MaterialKind } from '#model/material.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { addHead } from '#store/heads.ts';
import { plainMaterial } from '#store/plain-material.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Field } from '#ui/Field.tsx';
import styles from './Mix.module.css';

interface Props {
  /** The side, where there are several. */
  called: string;
  materials: readonly Material[];
  onAdd: (material: Pick<Material, 'id' | 'name' | 'kind' | 'unit'>) => void;
}

const kinds: readonly [MaterialKind, string][] = [
  ['colourant', 'Colourant'],
  ['flake', 'Flake'],
  ['softener', 'Softener'],
  ['other', 'Other'],
];
const notDosed = ['plastisol', 'hook', 'bag'];

/** Adds a material of the shelf to a side, or a new one by its name. */
export function AddDose({ called, materials, onAdd }: Props) {
  const { book, clock } = useShop();
  const [isNew, setIsNew] = useState(false);
  const [name, setName] = useState('');
  const [refusal, setRefusal] = useState<string>();
  const { act, trouble } = useOneAct();
  const offered = materials.filter(({ kind, isAside }) => !notDosed.includes(kind) && !isAside);
  const to = called ? ` to ${called}` : '';

  const make = (kind: MaterialKind) => {
    const plain = name.trim();
    if (plain === '' || plain.length > 60) {
      return setRefusal(plain === '' ? 'Give it a name.' : 'Keep the name to 60 letters.');
    }
    void act(async () => {
      const facts = { ...plainMaterial(kind), name: plain };
      onAdd(await addHead(book, 'materials', facts, clock.now()));
      setName('');
      setIsNew(false);
      return null;
    });
  };

  if (!isNew && offered.length > 0) {
    return (
      <Field label={`Add${to}`}>
        {(attributes) => (
          <select
            {...attributes}
            value=""
            onChange={({ currentTarget }) => {
              const found = offered.find(({ id }) => id === currentTarget.value);
              if (found) onAdd(found);
              else if (currentTarget.value === 'new') setIsNew(true);
              currentTarget.value = '';
            }}
          >
            <option value="">Choose from the shelf</option>
            {offered.map(({ id, name: own }) => (
              <option key={id} value={id}>
                {own}
              </option>
            ))}
            <option value="new">Something new</option>
          </select>
        )}
      </Field>
    );
  }
  return (
    <div class={styles.dose}>
      <Field label={`Something new${to}`} error={refusal}>
        {(attributes) => (
          <input
            {...attributes}
            autocomplete="off"
            value={name}
            onInput={({ currentTarget }) => {
              setName(currentTarget.value);
              setRefusal(undefined);
            }}
          />
        )}
      </Field>
      <Acts label={`What it is${to}`}>
        {kinds.map(([kind, word]) => (
          <ActKey key={kind} label={`${word}: add${to}`} onPress={() => make(kind)}>
            {word}
          </ActKey>
        ))}
      </Acts>
      <Refusal says={trouble} />
    </div>
  );
}
