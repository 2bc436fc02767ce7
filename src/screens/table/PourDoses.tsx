import type { ComponentChild } from 'preact';
import { useState } from 'preact/hooks';
import { largeEnoughMl, type MixBody, mostErrorShare, type PouredSide } from '#calc/mix.ts';
import { oddDose } from '#calc/usual-dose.ts';
import type { Mix, MixSide } from '#model/mix.ts';
import { DoseDrawing } from '#screens/DoseDrawing.tsx';
import { doseWords, shortOddWords, shortRoundedWords } from '#screens/dose-words.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { shortened } from '#screens/table/shortened.ts';
import { exactWords, type VolumeUnit } from '#screens/volumes.ts';
import { useSize } from '#ui/use-size.ts';
import styles from './Table.module.css';

/** One pot as it is to be mixed now. */
export interface PotPlan {
  /** `A`, `B`, or nothing for the only one. */
  letter: string;
  side: MixSide;
  /** The volume the mix is written for. */
  baseMl: number;
  poured: PouredSide;
  batch: string;
}

interface Props {
  plans: readonly PotPlan[];
  swatches: ReadonlyMap<string, string>;
  /** One line under the doses; empty or absent: none. */
  quiet?: string;
}

interface Line {
  id: string;
  name: string;
  amount: string;
  drawing: ComponentChild;
}

/** What goes into each cup, as dots and spoons, as many lines as fit the glass. */
export function PourDoses({ plans, swatches, quiet = '' }: Props) {
  const [area, { heightPx, widthPx }] = useSize<HTMLUListElement>();
  const [page, setPage] = useState(0);
  // A line with its drawing under it; on the stand beside it; with the letters of a tablet larger.
  const isStand = widthPx > heightPx * 1.8 && window.innerWidth > window.innerHeight;
  const linePx = isStand ? 38 : widthPx > 400 ? 68 : 60;
  const fit = Math.max(1, Math.floor((heightPx + 4) / linePx));
  const nameLetters = isStand ? 8 : Math.min(15, Math.max(6, Math.floor((widthPx - 96) / 11)));
  const pages = plans.flatMap((plan) => pagesOf(linesOf(plan, swatches), fit, plan));
  const shown = pages[page % Math.max(1, pages.length)];
  return (
    <>
      <ul class={styles.doses} ref={area} aria-label={shown ? potWords(shown.plan) : 'Doses'}>
        {shown?.lines.map(({ id, name, amount, drawing }) => (
          <li key={id}>
            <span>
              {plans.length > 1 && `${shown.plan.letter} `}
              {shortened(name, nameLetters - (plans.length > 1 && !isStand ? 2 : 0))}
            </span>
            <b>{amount}</b>
            {drawing}
          </li>
        ))}
      </ul>
      {quiet && (
        <p class={styles.quietLine} role="status">
          {quiet}
        </p>
      )}
      {pages.length > 1 && (
        <PressKey kind={styles.doseMore} onPress={() => setPage((page + 1) % pages.length)}>
          More
          <span class={styles.keySmall}>
            {(page % pages.length) + 1} of {pages.length}
          </span>
        </PressKey>
      )}
    </>
  );
}

/** How much plastisol to take for each pot: `take 245 mL`, `710 mL each`, `A 473, B 480 mL`. */
export function takeWords(plans: readonly PotPlan[], volume: VolumeUnit): string {
  const [first = '', ...others] = plans.map(({ poured }) => exactWords(poured.baseMl, volume));
  if (others.length === 0) return `take ${first}`;
  if (others.every((one) => one === first)) return `${first} each`;
  const [, unit] = first.split(/ (.*)/);
  const numbers = [first, ...others].map((one) => one.split(' ')[0]);
  return `${plans.map(({ letter }, at) => `${letter} ${numbers[at]}`.trim()).join(', ')} ${unit}`;
}

/** Less than this share moves a dose by a hair. */
const hairShare = 0.01;

/**
 * The one line to be said under the doses: a dose far from the usual, else the one that was rounded
 * most; empty: neither.
 */
export function quietWords(plans: readonly PotPlan[], mix: Mix, mixes: readonly Mix[]): string {
  const own: MixBody = { baseMl: mix.baseMl, sides: plans.map(({ side }) => side) };
  const odd = oddDose(
    own,
    mixes.filter(({ id }) => id !== mix.id),
  );
  if (odd) return shortOddWords(shortened(odd.name, 12), odd.times);
  const lines = plans.flatMap(({ letter, poured }) =>
    poured.lines.map((line) => ({ ...line, letter })),
  );
  const byShare = lines.toSorted((a, b) => offBy(b) - offBy(a));
  const [most] = byShare;
  if (!most || offBy(most) < hairShare) return '';
  const name = `${most.letter} ${shortened(most.dose.name, most.letter ? 5 : 6)}`.trim();
  return shortRoundedWords(name, most.amount, most.wanted, most.dose.unit);
}

function offBy({ amount, wanted }: { amount: number; wanted: number }): number {
  return Math.abs(Math.log(amount / wanted));
}

/** The next size up in which the doses can be measured; null: this pot is large enough. */
export function tooSmallMl({ poured, side, baseMl }: PotPlan, volumeMl: number, stepMl: number) {
  if (poured.worstShare <= mostErrorShare) return null;
  const factor = volumeMl / baseMl;
  const doses = side.doses.map((dose) =>
    dose.isPinned ? dose : { ...dose, amount: dose.amount * factor },
  );
  return largeEnoughMl({ baseMl: volumeMl, sides: [{ ...side, doses }] }, stepMl);
}

function potWords({ letter, side }: PotPlan): string {
  return letter ? `Side ${letter}, ${side.name}` : side.name;
}

function linesOf({ poured }: PotPlan, swatches: ReadonlyMap<string, string>): Line[] {
  return poured.lines.map(({ dose, amount }, index) => ({
    id: `${index}`,
    name: dose.name,
    amount: doseWords(amount, dose.unit),
    drawing: (
      <DoseDrawing
        name={dose.name}
        amount={amount}
        unit={dose.unit}
        swatch={swatches.get(dose.materialId) ?? null}
        shape="row"
      />
    ),
  }));
}

function pagesOf(lines: readonly Line[], fit: number, plan: PotPlan) {
  return Array.from({ length: Math.ceil(lines.length / fit) }, (_, page) => ({
    plan,
    lines: lines.slice(page * fit, (page + 1) * fit),
  }));
}
