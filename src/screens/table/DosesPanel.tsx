import { useState } from 'preact/hooks';
import type { LearntLoss } from '#calc/loss.ts';
import { pouredDoses } from '#calc/mix.ts';
import { frozenMix, pouredAt, roleAt } from '#calc/pot-mix.ts';
import type { Table } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import type { SaidOf } from '#model/entry.ts';
import type { Dose, Mix, MixId, MixRole } from '#model/mix.ts';
import { type Changes, changedBy } from '#screens/table/changed.ts';
import { HowMuch } from '#screens/table/HowMuch.tsx';
import { MakePanel } from '#screens/table/MakePanel.tsx';
import {
  type PotPlan,
  PourDoses,
  quietWords,
  takeWords,
  tooSmallMl,
} from '#screens/table/PourDoses.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import { roundPours } from '#screens/table/round.ts';
import { shortened } from '#screens/table/shortened.ts';
import { mixVolumeFrom } from '#screens/table/where-from.ts';
import { volumeStepMl, volumeWords } from '#screens/volumes.ts';
import { freshId } from '#store/book.ts';
import { addMix } from '#store/improvised.ts';
import type { SettingsFacts } from '#store/settings.ts';
import styles from './Table.module.css';

interface Props {
  mix: Mix;
  /** The pots as they would be mixed without doses. */
  mixed: SaidOf<'pot-mixed'>;
  volumeMl: number;
  /** Where that volume comes from. */
  volumeSays: string;
  table: Table;
  learnt: LearntLoss | undefined;
  batches: readonly string[];
  /** Every mix of the shop: what the person doses usually. */
  mixes: readonly Mix[];
  swatches: ReadonlyMap<string, string>;
  settings: SettingsFacts;
  onMixed: (said: SaidOf<'pot-mixed'>) => void;
}

const partWords: Partial<Record<MixRole, string>> = { core: 'Core', tail: 'Tail' };

/** What goes into the cup for the volume that was chosen, before it is mixed. */
export function DosesPanel(props: Props) {
  const { mix, mixed, batches, swatches, settings, onMixed } = props;
  const [volumeMl, setVolumeMl] = useState(props.volumeMl);
  const [part, setPart] = useState<MixRole | null>(null);
  const { book, clock } = useShop();
  /** Which of the pots is changed now; null: none. */
  const [changing, setChanging] = useState<number | null>(null);
  const [changes, setChanges] = useState<Changes>(new Map());
  const unit = settings.volumeUnit;
  const stepMl = volumeStepMl(unit);
  const parts = mix.sides.filter(({ role }) => partWords[role]);
  const next = nextPart(
    part,
    parts.map(({ role }) => role),
  );
  const nextWord = `${(next && partWords[next]) ?? 'Body'} pot`;
  const said = part ? partOf(mixed, mix, part) : mixed;
  const plans = plansOf(said, mix, part, volumeMl, batches);
  const enoughMl = plans
    .map((plan) => tooSmallMl(plan, volumeMl, stepMl))
    .find((ml) => ml !== null);

  const called = `${mixed.name} ${mix.version}`;

  /** The pots as they were poured; other doses are the next version of the mix. */
  function pour(given: Changes = new Map()) {
    const body = changedBy(mix, plans, given);
    const now = clock.now();
    const poured = body ? { id: freshId<MixId>(now), version: mix.version + 1 } : mix;
    const pots = said.pots.map((pot, index) => {
      const plan = plans[index];
      if (!plan) return { ...pot, volumeMl, batch: batches[index] ?? null };
      const { side, batch } = plan;
      const doses = given.get(side.role) ?? pouredDoses(plan.poured);
      return {
        ...pot,
        batch,
        volumeMl: plan.poured.baseMl,
        mix: frozenMix(poured, side, doses),
      };
    });
    if (body) {
      const { colourwayId, nextTime } = mix;
      const facts = { ...body, colourwayId, version: poured.version, nextTime };
      // Refused, it is kept from the log that holds its doses: with the next mix, or when the session ends.
      void addMix(book, facts, now, poured.id).catch(() => {});
    }
    onMixed({ ...said, pots });
  }

  const changed = changing === null ? undefined : plans[changing];
  if (changed) {
    const { side, batch, poured, letter } = changed;
    const next = (plans.indexOf(changed) + 1) % plans.length;
    const after = (doses: Dose[]) => new Map(changes).set(side.role, doses);
    return (
      <MakePanel
        key={side.role}
        name={letter ? `${letter} ${side.name}` : side.name}
        batch={batch}
        first={changes.get(side.role) ?? pouredDoses(poured)}
        volumeMl={poured.baseMl}
        others={props.mixes}
        {...(plans.length > 1
          ? {
              other: {
                word: `Side ${plans[next]?.letter}`,
                onGo: (doses) => {
                  setChanges(after(doses));
                  setChanging(next);
                },
              },
            }
          : {})}
        onMixed={(doses) => pour(after(doses))}
      />
    );
  }
  return (
    <section class={styles.pourDoses} aria-label={`Mix ${called}`}>
      <p class={styles.cup}>
        <b>{plans.map(({ batch }) => batch).join(' ')}</b>{' '}
        <span>
          <span class={styles.notStand}>{shortened(called, plans.length > 1 ? 8 : 16)}</span>
          {plans.length === 1 && <span class={styles.onlyStand}>{shortened(called, 9)}</span>}
        </span>
      </p>
      <HowMuch
        volumeMl={volumeMl}
        onVolume={setVolumeMl}
        settings={settings}
        small={takeWords(plans, settings.volumeUnit)}
        says={
          volumeMl === props.volumeMl
            ? props.volumeSays
            : mixVolumeFrom(volumeWords(volumeMl, unit), false, 'tonight')
        }
        round={roundPours(props.table, Math.max(1, said.pots.length))}
        learnt={props.learnt}
      />
      <div class={styles.doseRow}>
        <PourDoses
          plans={plans}
          swatches={swatches}
          quiet={
            enoughMl
              ? `Too small: ${volumeWords(enoughMl, unit)} at least`
              : quietWords(plans, mix, props.mixes)
          }
        />
      </div>
      <div class={styles.makeFoot}>
        {parts.length > 0 && <PressKey onPress={() => setPart(next)}>{nextWord}</PressKey>}
        {plans.length > 0 && <PressKey onPress={() => setChanging(0)}>Change</PressKey>}
        <PressKey kind={styles.strong} onPress={() => pour()}>
          Mixed
        </PressKey>
      </div>
    </section>
  );
}

function plansOf(
  said: SaidOf<'pot-mixed'>,
  mix: Mix,
  part: MixRole | null,
  volumeMl: number,
  batches: readonly string[],
): PotPlan[] {
  return said.pots.flatMap((_pot, index) => {
    const role = part ?? roleAt(index, said.pots.length);
    const side = mix.sides.find((one) => one.role === role);
    if (!side) return [];
    const letter = said.pots.length > 1 ? 'AB'.charAt(index) : '';
    const poured = pouredAt(mix.baseMl, side, volumeMl);
    return [{ letter, side, baseMl: mix.baseMl, poured, batch: batches[index] ?? '' }];
  });
}

/** A core or a tail is poured from a pot of its own. */
function partOf(mixed: SaidOf<'pot-mixed'>, mix: Mix, part: MixRole): SaidOf<'pot-mixed'> {
  const side = mix.sides.find(({ role }) => role === part);
  const [pot] = mixed.pots;
  if (!side || !pot) return mixed;
  const { name, swatch } = side;
  return { ...mixed, pots: [{ ...pot, name, swatch }] };
}

function nextPart(part: MixRole | null, parts: readonly MixRole[]): MixRole | null {
  const order = [null, ...parts];
  return order[(order.indexOf(part) + 1) % order.length] ?? null;
}
