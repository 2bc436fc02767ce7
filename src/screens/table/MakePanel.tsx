import { useState } from 'preact/hooks';
import type { MixBody } from '#calc/mix.ts';
import { lastDose } from '#calc/usual-dose.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { MaterialId } from '#model/material.ts';
import type { Dose } from '#model/mix.ts';
import { doseWords } from '#screens/dose-words.ts';
import { Fitted } from '#screens/table/Fitted.tsx';
import { useLeastPx } from '#screens/table/key-size.ts';
import {
  doseOfNone,
  oddWordsOf,
  offeredOf,
  stepOf,
  withAmount,
} from '#screens/table/make-doses.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { shortened } from '#screens/table/shortened.ts';
import { freshId } from '#store/book.ts';
import { headsOf } from '#store/heads.ts';
import {
  keepNameless,
  type NamelessKind,
  type NamelessMaterial,
  namelessKinds,
  nextName,
} from '#store/nameless-materials.ts';
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

/** A mix made up on the spot: every press adds a drop, or an eighth of a teaspoon. */
export function MakePanel(props: Props) {
  const { name, batch, first, volumeMl, others, usualId, other, onMixed } = props;
  const { book, clock } = useShop();
  const materials = useLive(() => headsOf(book, 'materials'), ['materials'], 'all');
  const [doses, setDoses] = useState<Dose[]>([...first]);
  const [takes, setTakes] = useState(false);
  const [added, setAdded] = useState<readonly NamelessMaterial[]>([]);
  const [page, setPage] = useState(0);
  const [chosenId, setChosenId] = useState<MaterialId | null>(null);
  const [area, { heightPx, widthPx }] = useSize<HTMLDivElement>();
  const leastPx = useLeastPx();
  const columns = widthPx > heightPx * 1.6 ? 3 : 2;
  const rows = Math.max(1, Math.floor((heightPx + 8) / (leastPx + 8)));
  const known = new Set<string>((materials ?? []).map(({ id }) => id));
  const waiting = added.filter(({ id }) => !known.has(id));
  const offered: (Dose | NamelessKind)[] = materials
    ? [...offeredOf(materials, first), ...waiting.map(doseOfNone), ...namelessKinds]
    : [];
  const room = columns * rows;
  const perPage = offered.length > room ? Math.max(1, room - 1) : room;
  const pages = Math.ceil(offered.length / perPage);
  const shown = offered.slice((page % pages) * perPage, ((page % pages) + 1) * perPage);
  const bases = usualId === undefined ? [] : plastisolsOf(materials ?? []);
  const base = bases.find(({ id }) => id === (chosenId ?? usualId));
  const nextBase = bases[(base ? bases.indexOf(base) + 1 : 0) % bases.length];

  const amountOf = (one: Dose) =>
    doses.find(({ materialId }) => materialId === one.materialId)?.amount ?? 0;
  const press = (one: Dose) => {
    const step = stepOf(one);
    const next = Math.max(0, amountOf(one) + (takes ? -step : step));
    setDoses(withAmount(doses, one, next));
  };
  /** A bottle that nobody wrote down yet: one press, and its first drop is counted. */
  const addNameless = (kind: NamelessKind) => {
    const name = nextName(kind, [...(materials ?? []), ...waiting]);
    const one = { id: freshId<MaterialId>(clock.now()), kind, name };
    setAdded([...added, one]);
    setTakes(false);
    const dose = doseOfNone(one);
    setDoses(withAmount(doses, dose, stepOf(dose)));
  };
  /** What really goes in is on the shelf from now on, under its number. */
  const keepAdded = () => {
    const given = added.filter(({ id }) => doses.some(({ materialId }) => materialId === id));
    void keepNameless(book, given, clock.now()).catch(() => {});
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
          if (typeof one === 'string') {
            return (
              <PressKey key={one} onPress={() => addNameless(one)}>
                New <span class={styles.keySmall}>{one}</span>
              </PressKey>
            );
          }
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
          <PressKey onPress={() => setPage((page + 1) % pages)}>More</PressKey>
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
        {other && (
          <PressKey
            onPress={() => {
              keepAdded();
              other.onGo(doses);
            }}
          >
            {other.word}
          </PressKey>
        )}
        <PressKey
          kind={styles.strong}
          onPress={() => {
            keepAdded();
            onMixed(doses, base?.id ?? null);
          }}
        >
          Mixed {odd && <span class={`${styles.keySmall} ${styles.onlyStand}`}>{odd}</span>}
          {baseWords && (
            <span class={`${styles.keySmall} ${odd ? styles.notStand : ''}`}>{baseWords}</span>
          )}
        </PressKey>
      </div>
    </section>
  );
}
