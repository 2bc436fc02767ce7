import { useState } from 'preact/hooks';
import { firstUnitOf } from '#calc/dose-steps.ts';
import type { MixBody } from '#calc/mix.ts';
import { clearSwatch } from '#calc/table-mix.ts';
import { lastDose, oddDose } from '#calc/usual-dose.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Material, MaterialId } from '#model/material.ts';
import type { Dose } from '#model/mix.ts';
import { doseWords, oddKeyWords } from '#screens/dose-words.ts';
import { Fitted } from '#screens/table/Fitted.tsx';
import { useLeastPx } from '#screens/table/key-size.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { shortened } from '#screens/table/shortened.ts';
import { headsOf } from '#store/heads.ts';
import { plastisolsOf } from '#store/usual-plastisol.ts';
import { useSize } from '#ui/use-size.ts';
import styles from './Table.module.css';

interface Props {
  /** How the pot is called, and what stands on its cup. */
  name: string;
  batch: string;
  /** What is in it already. */
  first: readonly Dose[];
  volumeMl: number;
  /** What the person mixes usually, oldest first. */
  others: readonly MixBody[];
  /** The plastisol it is mixed from, unless another is chosen; absent: that is settled already. */
  usualId?: MaterialId | null;
  /** Where the other side of a laminate is changed. */
  other?: { word: string; onGo: (doses: Dose[]) => void };
  onMixed: (doses: Dose[], plastisolId: MaterialId | null) => void;
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
export function MakePanel(props: Props) {
  const { name, batch, first, volumeMl, others, usualId, other, onMixed } = props;
  const { book } = useShop();
  const materials = useLive(() => headsOf(book, 'materials'), ['materials'], 'all');
  const [doses, setDoses] = useState<Dose[]>([...first]);
  const [takes, setTakes] = useState(false);
  const [page, setPage] = useState(0);
  const [chosenId, setChosenId] = useState<MaterialId | null>(null);
  const [area, { heightPx, widthPx }] = useSize<HTMLDivElement>();
  const leastPx = useLeastPx();
  const columns = widthPx > heightPx * 1.6 ? 3 : 2;
  const rows = Math.max(1, Math.floor((heightPx + 8) / (leastPx + 8)));
  const offered = offeredOf(materials ?? [], first);
  const room = columns * rows;
  const perPage = offered.length > room ? Math.max(1, room - 1) : room;
  const shown = offered.slice(page * perPage, (page + 1) * perPage);
  const bases = usualId === undefined ? [] : plastisolsOf(materials ?? []);
  const base = bases.find(({ id }) => id === (chosenId ?? usualId));
  const nextBase = bases[(base ? bases.indexOf(base) + 1 : 0) % bases.length];

  const amountOf = (one: Dose) =>
    doses.find(({ materialId }) => materialId === one.materialId)?.amount ?? 0;
  const press = (one: Dose) => {
    const step = one.unit === 'tsp' ? 0.125 : 1;
    const next = Math.max(0, amountOf(one) + (takes ? -step : step));
    setDoses(withAmount(doses, one, next));
  };
  /** What the last mix with this material took of it; a key that is at nothing has the room. */
  const noneWords = (one: Dose) => {
    const last = lastDose(one, others, volumeMl);
    if (last === null) return 'none';
    // A narrow key has no room for the unit, which its own presses tell.
    const [amount, unit] = doseWords(last, one.unit).split(' ');
    return (
      <>
        last {amount}
        <span class={styles.notStand}> {unit}</span>
      </>
    );
  };
  const odd = oddWordsOf(doses, volumeMl, others);
  const baseWords = bases.length === 1 && base ? `in ${shortened(base.name, 14)}` : '';

  return (
    <section class={styles.make} aria-label={`Mix ${name}`}>
      <p class={styles.cup}>
        <b>{batch}</b> <span role="status">{odd || shortened(name, 14)}</span>
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
              <Fitted name={one.name} />{' '}
              <span class={styles.keySmall}>
                {amount > 0 ? doseWords(amount, one.unit) : noneWords(one)}
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
        {bases.length > 1 && nextBase && (
          <PressKey
            label={`Plastisol: ${base?.name ?? 'not told'}, press for ${nextBase.name}`}
            onPress={() => setChosenId(nextBase.id)}
          >
            <b>{shortened(base?.name ?? 'Plastisol', columns === 3 ? 6 : 8)}</b>{' '}
            <span class={`${styles.keySmall} ${styles.notStand}`}>
              {base ? 'plastisol' : 'not told'}
            </span>
          </PressKey>
        )}
        {other && <PressKey onPress={() => other.onGo(doses)}>{other.word}</PressKey>}
        <PressKey kind={styles.strong} onPress={() => onMixed(doses, base?.id ?? null)}>
          Mixed {odd && <span class={`${styles.keySmall} ${styles.onlyStand}`}>{odd}</span>}
          {baseWords && (
            <span class={`${styles.keySmall} ${odd ? styles.notStand : ''}`}>{baseWords}</span>
          )}
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
      (material): Dose => ({
        materialId: material.id,
        name: material.name,
        amount: 0,
        unit: firstUnitOf(material),
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

/** The dose that is far above the usual, in a few words; empty: none is. What is counted up begins below. */
function oddWordsOf(doses: readonly Dose[], volumeMl: number, others: readonly MixBody[]): string {
  const side = { role: 'only', name: '', swatch: clearSwatch, plastisolId: null } as const;
  const [odd] = doses
    .flatMap(
      (dose) => oddDose({ baseMl: volumeMl, sides: [{ ...side, doses: [dose] }] }, others) ?? [],
    )
    .filter(({ times }) => times > 1)
    .sort((a, b) => b.times - a.times);
  return odd ? oddKeyWords(shortened(odd.name, 6), odd.times) : '';
}
