import { useState } from 'preact/hooks';
import { heatFor, learntLoss, roundsFrom } from '#calc/loss.ts';
import { largeEnoughMl, mostErrorShare, scaledMix } from '#calc/mix.ts';
import { pouredCents, pricedAt } from '#calc/mix-price.ts';
import { baitCostAt } from '#calc/mould-cost.ts';
import { shotMl } from '#calc/mould-size.ts';
import { pouredAt } from '#calc/pot-mix.ts';
import { oddDose } from '#calc/usual-dose.ts';
import { useShop } from '#live/shop.ts';
import { useWorked } from '#live/use-worked.ts';
import type { Mix } from '#model/mix.ts';
import type { Mould } from '#model/mould.ts';
import { howMuch } from '#screens/amount-text.ts';
import { baitMoneyWords, moneyWords } from '#screens/amounts.ts';
import { MixLines } from '#screens/colours/MixLines.tsx';
import { headWords, sideWords } from '#screens/colours/side-words.ts';
import { guessedPxPerMm, TrueSize } from '#screens/colours/TrueSize.tsx';
import type { MixBook } from '#screens/colours/use-mix-book.ts';
import { oddWords, tidy } from '#screens/dose-words.ts';
import { heatWords, lossWords } from '#screens/heat-words.ts';
import { hrefTo } from '#screens/routes.ts';
import { exactWords, type VolumeUnit, volumeStepMl, volumeWords } from '#screens/volumes.ts';
import { countWords } from '#screens/words.ts';
import { pxPerMmOf } from '#store/glass.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { Stepper } from '#ui/Stepper.tsx';
import styles from './Mix.module.css';

/** How much one has may be told so. */
const amountsOf = {
  cup: '140 mL, 140 g, 2 cups',
  floz: '8 fl oz, 140 g, 2 cups',
  mL: '140 mL, 140 g',
} as const satisfies Record<VolumeUnit, string>;

/** One version of a mix for the volume that is chosen: doses, shots and cost. */
export function MixSheet({ mix, of }: { mix: Mix; of: MixBook }) {
  const { book } = useShop();
  const { settings, materials, moulds } = of;
  const unit = settings.volumeUnit;
  const stepMl = volumeStepMl(unit);
  const [volumeMl, setVolumeMl] = useState(mix.baseMl);
  const [text, setText] = useState('');
  const [mouldId, setMouldId] = useState<string>(moulds[0]?.id ?? '');
  const [measured, setMeasured] = useState(() => pxPerMmOf(book));
  const pxPerMm = measured ?? guessedPxPerMm();
  const mould = moulds.find(({ id }) => id === mouldId);
  const poured = mix.sides.map((side) => ({ side, ...pouredAt(mix.baseMl, side, volumeMl) }));
  const [lastPoured] = [...of.pours.values()].flat().sort((a, b) => b.at - a.at);
  const isPair = mix.sides.some(({ role }) => role === 'b');
  // Each of two pots gives half of a shot, and keeps a loss of its own.
  const potsCount = isPair ? 2 : 1;
  const learnt = useWorked(() => learntLoss(of.columns.flatMap(({ runs = [] }) => runs)), [of]);
  const poursOf = (shots: number) =>
    mould ? [{ mouldId: mould.id, shouldMl: (shots * shotMl(mould)) / potsCount }] : [];
  const shots = learnt && roundsFrom(learnt, volumeMl, poursOf(1));
  const worst = Math.max(...poured.map(({ worstShare }) => worstShare));
  const refusal =
    text !== '' && typedMl(text) === null ? `Write ${amountsOf[unit]} or 5 shots.` : undefined;

  function typedMl(typed: string): number | null {
    const found = howMuch(typed, unit);
    if (!found) return null;
    if ('ml' in found) return found.ml >= 5 && found.ml <= 20_000 ? found.ml : null;
    if (!mould || !learnt || found.shots < 1 || found.shots > 500) return null;
    return heatFor(learnt, poursOf(found.shots)).heatMl;
  }
  function type(typed: string) {
    setText(typed);
    const ml = typedMl(typed);
    if (ml !== null) setVolumeMl(ml);
  }
  function step(by: number) {
    setText('');
    setVolumeMl(Math.min(20_000, Math.max(stepMl, (Math.round(volumeMl / stepMl) + by) * stepMl)));
  }

  const advice = adviceOf(mix, of, { volumeMl, worst });
  return (
    <>
      <Sheet title="What goes in">
        <Stepper
          label="How much"
          value={volumeWords(volumeMl, unit)}
          small={takeWords(poured, unit)}
          last={lastPoured && volumeWords(lastPoured.volumeMl, unit)}
          lessName={`${volumeWords(stepMl, unit)} less`}
          moreName={`${volumeWords(stepMl, unit)} more`}
          onLess={() => step(-1)}
          onMore={() => step(1)}
        />
        {advice && <p>{advice}</p>}
        <div class={styles.sides} data-pair={isPair || undefined}>
          {poured.map(({ side, lines }) => (
            <section key={side.role} aria-label={sideWords[side.role] || side.name}>
              {mix.sides.length > 1 && <h3>{headWords(side)}</h3>}
              <MixLines lines={lines} materials={materials} pxPerMm={pxPerMm} />
            </section>
          ))}
        </div>
        <CostLines mix={mix} poured={poured} of={of} mould={mould} />
        <ActKey size="big" href={hrefTo({ at: 'drops', mixId: mix.id, volumeMl: tidy(volumeMl) })}>
          Count drops
          <small>one key or the pedal</small>
        </ActKey>
      </Sheet>
      <Sheet title="What you have">
        <Field label="I have, or I want" hint={`${amountsOf[unit]} or 5 shots`} error={refusal}>
          {(attributes) => (
            <input
              {...attributes}
              autocomplete="off"
              value={text}
              onInput={({ currentTarget }) => type(currentTarget.value)}
            />
          )}
        </Field>
        {moulds.length > 0 && (
          <Field label="Mould">
            {(attributes) => (
              <select
                {...attributes}
                value={mouldId}
                onChange={({ currentTarget }) => setMouldId(currentTarget.value)}
              >
                {moulds.map(({ id, name }) => (
                  <option key={id} value={id}>
                    {name}
                  </option>
                ))}
              </select>
            )}
          </Field>
        )}
        {mould && learnt && typeof shots === 'number' && (
          <p role="status">
            {exactWords(volumeMl, unit)} {isPair ? 'of each side ' : ''}is{' '}
            {countWords(shots, 'shot')} of {mould.name}.{' '}
            {shots > 0 &&
              `${countWords(shots, 'shot')} take ${isPair ? 'of each side ' : ''}${heatWords(heatFor(learnt, poursOf(shots)), settings.massUnit)} `}
            {lossWords(learnt, mould.id, settings.massUnit)}
          </p>
        )}
      </Sheet>
      {hasFlake(mix, of) && (
        <TrueSize pxPerMm={pxPerMm} isMeasured={measured !== null} onChange={setMeasured} />
      )}
    </>
  );
}

type Poured = { side: Mix['sides'][number] } & ReturnType<typeof pouredAt>;

function takeWords(poured: readonly Poured[], unit: VolumeUnit): string {
  const [first = '', ...others] = poured.map(({ baseMl }) => exactWords(baseMl, unit));
  if (others.length > 0 && others.every((one) => one === first)) return `take ${first} of each`;
  return `take ${[first, ...others].join(', ')}`;
}

function hasFlake(mix: Mix, { materials }: MixBook): boolean {
  return mix.sides.some(({ doses }) =>
    doses.some(({ materialId }) => materials.get(materialId)?.flake),
  );
}

/** The one quiet line: a pot too small for its doses, or a dose far from the usual. */
function adviceOf(
  mix: Mix,
  { mixes, settings }: MixBook,
  { volumeMl, worst }: { volumeMl: number; worst: number },
): string {
  const unit = settings.volumeUnit;
  if (worst > mostErrorShare) {
    const enoughMl = largeEnoughMl(scaledMix(mix, volumeMl), volumeStepMl(unit));
    return enoughMl
      ? `Too small a pot for these doses: make at least ${volumeWords(enoughMl, unit)}.`
      : 'Too little for one drop. Thin the colourant 1:10 and count ten times as many.';
  }
  const odd = oddDose(
    mix,
    mixes.filter(({ id }) => id !== mix.id),
  );
  return odd ? oddWords(odd) : '';
}

/** What the pot costs and a bait of it, by the same prices as at the shelf. */
function CostLines({
  mix,
  poured,
  of,
  mould,
}: {
  mix: Mix;
  poured: readonly Poured[];
  of: MixBook;
  mould: Mould | undefined;
}) {
  const at = useShop().clock.now();
  const cents = pouredCents(poured, pricedAt(of.prices, at));
  if (cents === null) return null;
  const ml = poured.reduce((sum, { baseMl }) => sum + baseMl, 0);
  const bait = mould ? baitCostAt({ mix, mould, at }, of) : null;
  return (
    <p>
      {volumeWords(ml, of.settings.volumeUnit)} {poured.length > 1 ? 'in all ' : ''}cost{' '}
      {moneyWords(cents)}.
      {mould && bait && ` A bait of ${mould.name} costs ${baitMoneyWords(bait.perBait)}.`}
    </p>
  );
}
