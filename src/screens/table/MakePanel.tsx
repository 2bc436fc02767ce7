import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Material } from '#model/material.ts';
import type { Dose } from '#model/mix.ts';
import { doseWords } from '#screens/dose-words.ts';
import { useLeastPx } from '#screens/table/key-size.ts';
import { shortened } from '#screens/table/PotKeys.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import { headsOf } from '#store/heads.ts';
import { useSize } from '#ui/use-size.ts';
import styles from './Table.module.css';

interface Props {
  /** How the pot is called, and what stands on its cup. */
  name: string;
  batch: string;
  /** What is in it already. */
  first: readonly Dose[];
  onMixed: (doses: Dose[]) => void;
}

/** What is given by drops or spoons into a pot; plastisol is its base, hooks and bags are none of it. */
const given = [
  'colourant',
  'flake',
  'scent',
  'salt',
  'softener',
  'hardener',
  'stabiliser',
  'other',
];
const mostDoses = 20;

/** A mix made up on the spot: every press adds a drop, or an eighth of a teaspoon. */
export function MakePanel({ name, batch, first, onMixed }: Props) {
  const { book } = useShop();
  const materials = useLive(() => headsOf(book, 'materials'), ['materials'], 'all');
  const [doses, setDoses] = useState<Dose[]>([...first]);
  const [takes, setTakes] = useState(false);
  const [page, setPage] = useState(0);
  const [area, { heightPx, widthPx }] = useSize<HTMLDivElement>();
  const leastPx = useLeastPx();
  const columns = widthPx > heightPx * 1.6 ? 3 : 2;
  const rows = Math.max(1, Math.floor((heightPx + 8) / (leastPx + 8)));
  const offered = offeredOf(materials ?? [], first);
  const room = columns * rows;
  const perPage = offered.length > room ? Math.max(1, room - 1) : room;
  const shown = offered.slice(page * perPage, (page + 1) * perPage);

  const amountOf = (one: Dose) =>
    doses.find(({ materialId }) => materialId === one.materialId)?.amount ?? 0;
  const press = (one: Dose) => {
    const step = one.unit === 'tsp' ? 0.125 : 1;
    const next = Math.max(0, amountOf(one) + (takes ? -step : step));
    setDoses(withAmount(doses, one, next));
  };

  return (
    <section class={styles.make} aria-label={`Mix ${name}`}>
      <p class={styles.cup}>
        <b>{batch}</b> <span>{shortened(name, 14)}</span>
      </p>
      <div
        class={styles.makeKeys}
        ref={area}
        role="group"
        aria-label={takes ? 'Take away' : 'Add'}
        style={{ '--columns': columns, '--rows': rows }}
      >
        {shown.map((one) => {
          const amount = amountOf(one);
          return (
            <PressKey key={one.materialId} isPressed={amount > 0} onPress={() => press(one)}>
              {shortened(one.name, columns === 3 ? 8 : 12)}{' '}
              <span class={styles.keySmall}>
                {amount > 0 ? doseWords(amount, one.unit) : 'none'}
              </span>
            </PressKey>
          );
        })}
        {offered.length > perPage && (
          <PressKey onPress={() => setPage((page + 1) % Math.ceil(offered.length / perPage))}>
            More
          </PressKey>
        )}
        {materials && offered.length === 0 && (
          <p class={styles.why}>No colourant on the shelf yet.</p>
        )}
      </div>
      <div class={styles.makeFoot}>
        <PressKey isPressed={takes} onPress={() => setTakes(!takes)}>
          Take away
        </PressKey>
        <PressKey kind={styles.strong} onPress={() => onMixed(doses)}>
          Mixed
        </PressKey>
      </div>
    </section>
  );
}

/** What can be given, as doses of nothing yet: what is in the pot first. */
function offeredOf(materials: readonly Material[], first: readonly Dose[]): Dose[] {
  const used = new Set<string>(first.map(({ materialId }) => materialId));
  const others = materials
    .filter(({ id, kind, isAside }) => given.includes(kind) && !isAside && !used.has(id))
    .sort((a, b) => given.indexOf(a.kind) - given.indexOf(b.kind))
    .map(
      ({ id, name, kind }): Dose => ({
        materialId: id,
        name,
        amount: 0,
        unit: kind === 'colourant' ? 'drop' : 'tsp',
        isPinned: false,
      }),
    );
  return [...first, ...others];
}

/** The doses with one of them set; a dose of nothing is no dose. */
function withAmount(doses: readonly Dose[], one: Dose, amount: number): Dose[] {
  const at = doses.findIndex(({ materialId }) => materialId === one.materialId);
  if (amount <= 0) return doses.filter((_, index) => index !== at);
  if (at === -1) return doses.length < mostDoses ? [...doses, { ...one, amount }] : [...doses];
  return doses.with(at, { ...one, ...doses[at], amount });
}
