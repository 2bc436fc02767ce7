import { useRef, useState } from 'preact/hooks';
import { pouredDoses } from '#calc/mix.ts';
import { mixNow } from '#calc/mix-now.ts';
import { pouredAt } from '#calc/pot-mix.ts';
import { pouredFrom } from '#calc/pot-runs.ts';
import type { Table } from '#calc/table.ts';
import type { Pot } from '#calc/table-pots.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Said } from '#model/entry.ts';
import type { MixSide } from '#model/mix.ts';
import { HowMuch } from '#screens/table/HowMuch.tsx';
import { type PotPlan, PourDoses, takeWords } from '#screens/table/PourDoses.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import { roundPours } from '#screens/table/round.ts';
import { StepKeys } from '#screens/table/StepKeys.tsx';
import type { VolumeFrom } from '#screens/table/where-from.ts';
import { volumeStepMl, volumeWords } from '#screens/volumes.ts';
import { headsOf } from '#store/heads.ts';
import { lossOf } from '#store/loss.ts';
import type { SettingsFacts } from '#store/settings.ts';
import styles from './Table.module.css';

interface Props {
  table: Table;
  pot: Pot;
  settings: SettingsFacts;
  /** The last top-up of an earlier session, mL; null: none was; undefined: not read yet. */
  earlierMl: number | null | undefined;
  onSaid: (said: Said) => void;
}

/** What was added to a pot: how much, how often it had been hot before, and the doses of fresh plastisol. */
export function TopUpPanel(props: Props) {
  const { table, pot, settings, onSaid } = props;
  const { book } = useShop();
  const materials = useLive(() => headsOf(book, 'materials'), ['materials'], 'all');
  const learnt = useLive(() => lossOf(book), ['columns'], 'loss');
  const unit = settings.volumeUnit;
  const stepMl = volumeStepMl(unit);
  const last = pot.course.filter((event) => event.kind === 'filled').at(-1);
  const isRepeat = last?.kind === 'filled' && last.at !== pot.mixedAt;
  // The first that is known, which may come just after the panel: what comes later, or after a hand has
  // chosen, changes nothing under it.
  const known = useRef(props.earlierMl);
  if (known.current === undefined) known.current = props.earlierMl;
  const earlierMl = known.current ?? null;
  const lastMl = isRepeat ? last.volumeMl : (earlierMl ?? stepMl);
  const [chosenMl, setChosenMl] = useState<number | null>(null);
  const volumeMl = chosenMl ?? lastMl;
  const [heats, setHeats] = useState(isRepeat ? Math.round(last.maxHeats) : 0);
  const words = volumeWords(volumeMl, unit);
  // Remelt comes coloured; fresh plastisol takes the doses of the pot it goes into.
  const mixed = heats === 0 ? mixNow(table.pots, pot) : null;
  const side: MixSide | null = mixed && {
    role: mixed.role,
    name: pot.name,
    swatch: pot.swatch ?? '#d8d2c2',
    plastisolId: mixed.plastisolId,
    doses: mixed.doses.filter(({ isPinned }) => !isPinned),
  };
  const poured = side && pouredAt(pot.mixedMl, side, volumeMl);
  const plans: PotPlan[] =
    side && poured
      ? [{ letter: '', side, baseMl: pot.mixedMl, poured, batch: pot.batch ?? '' }]
      : [];
  const swatches = new Map(
    (materials ?? []).flatMap(({ id, swatch }) => (swatch ? [[id as string, swatch]] : [])),
  );

  const asLast = isRepeat && volumeMl === lastMl ? 'as last time' : 'goes in';
  const smallWords = plans.length > 0 ? takeWords(plans, settings.volumeUnit) : asLast;

  function topUp() {
    const added = { kind: 'pot-topped-up', potId: pot.id, volumeMl } as const;
    const before = { meanHeats: heats, maxHeats: heats };
    if (!mixed || !poured) return onSaid({ ...added, ...before });
    const mix = { ...mixed, doses: pouredDoses(poured) };
    onSaid({ ...added, ...before, volumeMl: poured.baseMl, mix });
  }

  return (
    <section class={styles.panel} aria-label={`Top up ${pot.name}`}>
      <HowMuch
        volumeMl={volumeMl}
        onVolume={setChosenMl}
        settings={settings}
        small={smallWords}
        says={topUpFrom(
          isRepeat ? 'tonight' : earlierMl === null ? 'settings' : 'earlier',
          words,
          volumeMl === lastMl,
        )}
        round={roundPours(table, Math.max(1, table.potsDrawn.length))}
        learnt={learnt}
        already={{ inMl: filledMl(pot), past: pouredFrom(pot, table.shots) }}
      />
      <StepKeys
        label="Heats it had before"
        value={heats === 0 ? 'Fresh' : `Remelt ${heats}`}
        small={heats === 0 ? 'never heated before' : 'heats it had before'}
        lessName="One heat less"
        moreName="One heat more"
        onLess={() => setHeats(Math.max(0, heats - 1))}
        onMore={() => setHeats(Math.min(30, heats + 1))}
      />
      {plans.length > 0 && (
        <div class={styles.doseRow}>
          <PourDoses plans={plans} swatches={swatches} />
        </div>
      )}
      <PressKey kind={styles.strong} onPress={topUp}>
        Top up {words}
      </PressKey>
    </section>
  );
}

/** One sentence for where the volume of a top-up comes from. */
function topUpFrom(from: VolumeFrom, words: string, isPreset: boolean): string {
  if (!isPreset) return `You chose ${words}.`;
  if (from === 'settings') return `Our start value: ${words}.`;
  return from === 'tonight' ? `Your last ${words}.` : `Last session: ${words}.`;
}

/** All that ever went into a pot, mL. */
function filledMl({ course }: Pot): number {
  return course.reduce((sum, one) => sum + (one.kind === 'filled' ? one.volumeMl : 0), 0);
}
