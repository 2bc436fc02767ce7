import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { mixCost, pricedAt } from '#calc/mix-price.ts';
import { baitCostAt, type CostScene, runOf } from '#calc/mould-cost.ts';
import { useShop } from '#live/shop.ts';
import type { Mould } from '#model/mould.ts';
import { CostExtras } from '#screens/shelf/CostExtras.tsx';
import { type MixChoice, pouredLast, shownParts } from '#screens/shelf/cost-view.ts';
import { dateWords } from '#screens/words.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { Field } from '#ui/Field.tsx';
import { Figure } from '#ui/Figure.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { StackedBar } from '#ui/StackedBar.tsx';

interface Props {
  moulds: readonly Mould[];
  mixes: readonly MixChoice[];
  scene: CostScene & { settings: SettingsFacts };
}

/** The choice of mould and mix, and what a bait of them costs. */
export function BaitCostPage({ moulds, mixes, scene }: Props) {
  const [mouldId, setMouldId] = useState<string>(moulds[0]?.id ?? '');
  const [mixId, setMixId] = useState<string>(mixes[0]?.mix.id ?? '');
  const mould = moulds.find(({ id }) => id === mouldId) ?? moulds[0];
  const choice = mixes.find(({ mix }) => mix.id === mixId) ?? mixes[0];
  if (!mould || !choice) return null;
  return (
    <>
      <Sheet>
        <Field label="Mould">
          {(attributes) => (
            <select
              {...attributes}
              value={mould.id}
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
        <Field label="Mix">
          {(attributes) => (
            <select
              {...attributes}
              value={choice.mix.id}
              onChange={({ currentTarget }) => setMixId(currentTarget.value)}
            >
              {mixes.map(({ mix, name }) => (
                <option key={mix.id} value={mix.id}>
                  {name}
                </option>
              ))}
            </select>
          )}
        </Field>
      </Sheet>
      <CostSheet mould={mould} choice={choice} scene={scene} />
      <CostExtras jars={scene.prices} settings={scene.settings} />
    </>
  );
}

function CostSheet({
  mould,
  choice,
  scene,
}: {
  mould: Mould;
  choice: MixChoice;
  scene: CostScene;
}) {
  const { clock } = useShop();
  const { mix, name } = choice;
  const cost = baitCostAt({ mix, mould, at: clock.now() }, scene);
  if (!cost) {
    return (
      <Sheet place="beside">
        <p>Every cavity of this mould is closed off.</p>
      </Sheet>
    );
  }
  const { perBait, parts } = shownParts(cost);
  const { isGuess, good, shots, notChecked } = runOf(mould, scene.columns);
  const { unpriced } = mixCost(mix, pricedAt(scene.prices, clock.now()));
  const lastAt = pouredLast(choice, scene.columns);
  const then = lastAt === null ? null : baitCostAt({ mix, mould, at: lastAt }, scene);
  const label = `One bait costs ${perBait}: ${parts.map(({ word, says }) => `${word.toLowerCase()} ${says}`).join(', ')}.`;
  return (
    <Sheet title={`${mould.name}, ${name}`} place="beside">
      <Figure count={perBait} rest="a good bait" />
      <StackedBar parts={parts} label={label} />
      <p>
        {isGuess
          ? 'As if every bait were good: this mould has no counted shot yet.'
          : `From ${good} good baits in ${shots} shots of this mould.`}
        {notChecked > 0 && ` ${notChecked} not checked are taken to be like the rest.`}
      </p>
      <p>Sprues and bad baits go back to the remelt jar at half their worth. The rest is lost.</p>
      {unpriced.length > 0 && (
        <p>No price yet for {unpriced.join(', ')}: it costs more than this.</p>
      )}
      {then && lastAt !== null && (
        <p>
          By the prices of{' '}
          {dateWords(dayOf(lastAt, clock.zone()), dayOf(clock.now(), clock.zone()))}, when it was
          poured last: {shownParts(then).perBait}.
        </p>
      )}
    </Sheet>
  );
}
