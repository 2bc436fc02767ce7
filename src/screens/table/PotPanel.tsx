import { useState } from 'preact/hooks';
import { type PotState, potStateAt } from '#calc/pot-course.ts';
import type { Table } from '#calc/table.ts';
import type { Pot } from '#calc/table-pots.ts';
import { cFromF, fFromC } from '#calc/units.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Said } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { CountDrops, dropsIn } from '#screens/table/CountDrops.tsx';
import type { CountHand } from '#screens/table/count-hand.ts';
import { MixPanel } from '#screens/table/MixPanel.tsx';
import { besideOthers, freeSlots, inPlaceOf } from '#screens/table/mix.ts';
import { nextPots } from '#screens/table/next-pots.ts';
import { PotPicture } from '#screens/table/PotPicture.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import type { RoundsLeftOf } from '#screens/table/rounds-left.ts';
import { StepKeys } from '#screens/table/StepKeys.tsx';
import { Tally } from '#screens/table/Tally.tsx';
import { TopUpPanel } from '#screens/table/TopUpPanel.tsx';
import { potFrom, potTempFrom } from '#screens/table/where-from.ts';
import { volumeWords } from '#screens/volumes.ts';
import { countWords, tempWords } from '#screens/words.ts';
import { lastReadingsOf, lastVolumeOf } from '#store/last-time.ts';
import type { SettingsFacts } from '#store/settings.ts';
import styles from './Table.module.css';

interface Props {
  table: Table;
  /** Null: there is no pot, a mix is chosen. */
  pot: Pot | null;
  settings: SettingsFacts;
  /** Undefined: what the history taught is not read yet. */
  leftOf: RoundsLeftOf | undefined;
  now: Instant;
  /** Writes and closes the panel. */
  onSaid: (said: Said) => void;
  /** Writes and leaves the panel as it is. */
  onRead: (said: Said) => void;
  /** Gives the main key, Undo and the pedals to a count of drops. */
  onCounting: (hand: CountHand | null) => void;
}

/** The pot: what is in it, what it has been through, and what can be done with it. */
export function PotPanel(props: Props) {
  const { table, pot, settings, now, onSaid } = props;
  const { book } = useShop();
  const earlierMl = useLive(() => lastVolumeOf(book, 'pot-topped-up'), ['sealed'], 'last top-up');
  const [inside, setInside] = useState<'pot' | 'mix' | 'another' | 'top-up' | 'drops'>(
    pot ? 'pot' : 'mix',
  );
  if (inside === 'another') {
    return (
      <div class={styles.another}>
        <MixPanel
          table={table}
          pot={null}
          isApart
          settings={settings}
          now={now}
          onSaid={(said) => onSaid(besideOthers(said, table))}
        />
      </div>
    );
  }
  if (inside === 'mix' || !pot) {
    return (
      <MixPanel
        table={table}
        pot={pot}
        settings={settings}
        now={now}
        onSaid={(said) => onSaid(pot ? inPlaceOf(said, pot) : said)}
      />
    );
  }
  if (inside === 'top-up') {
    return <TopUpPanel {...{ table, pot, settings, earlierMl, onSaid }} />;
  }
  if (inside === 'drops') {
    return <CountDrops pot={pot} onCounting={props.onCounting} onBack={() => setInside('pot')} />;
  }
  const state = potStateAt(pot, table.pourC, now);
  const hasDrops = dropsIn(pot).length > 0;
  const picture = (
    <>
      <PotPicture volumeMl={state.volumeMl} unit={settings.volumeUnit} />
      {pot.batch && <span class={styles.batch}>{pot.batch}</span>}
    </>
  );
  return (
    <section
      class={styles.potpanel}
      aria-label={`Pot, ${pot.name}`}
      data-drops={hasDrops || undefined}
    >
      {hasDrops ? (
        <PressKey kind={styles.potDrops} onPress={() => setInside('drops')}>
          <span class={styles.potPic}>{picture}</span>
          Count drops
        </PressKey>
      ) : (
        <div class={styles.potPic}>{picture}</div>
      )}
      <PotFacts {...props} pot={pot} state={state} />
      <ReadKeys {...props} pot={pot} state={state} />
      <PressKey onPress={() => onSaid({ kind: 'pot-heated', potId: pot.id })}>Reheated</PressKey>
      <PressKey onPress={() => setInside('top-up')}>Topped up</PressKey>
      <PressKey onPress={() => setInside('mix')}>New mix</PressKey>
      <PressKey onPress={() => onSaid({ kind: 'pot-emptied', potId: pot.id })}>Empty</PressKey>
      {freeSlots(table).length > 0 && (
        <PressKey onPress={() => setInside('another')}>Another pot</PressKey>
      )}
      <NextKey table={table} pot={pot} onSaid={onSaid} />
    </section>
  );
}

/** Says what the next pour comes from: this pot, or both where this one is already chosen alone. */
function NextKey({ table, pot, onSaid }: Pick<Props, 'table' | 'onSaid'> & { pot: Pot }) {
  const { potsInUse } = table;
  if (potsInUse.length < 2) return null;
  const next = nextPots(table);
  const isAlone = next.length === 1 && next[0]?.id === pot.id;
  if (isAlone && (potsInUse.length > 2 || table.seats.some(({ hand }) => hand))) return null;
  const potIds = isAlone ? potsInUse.map(({ id }) => id) : [pot.id];
  return (
    <PressKey onPress={() => onSaid({ kind: 'pot-chosen', potIds })}>
      {isAlone ? 'Pour both' : 'Pour next'}
    </PressKey>
  );
}

type Inside = Props & { pot: Pot; state: PotState };

/** The facts of the pot; one press tells where they come from. The smallest glass has no room for that key. */
function PotFacts(props: Inside) {
  const { table, pot, settings, leftOf } = props;
  const [isTold, setIsTold] = useState(false);
  const mixed = pot.course.find((event) => event.kind === 'filled');
  const mixedMl = mixed?.kind === 'filled' ? mixed.volumeMl : 0;
  const [volume, rounds] = potFrom(mixedMl, settings.volumeUnit, leftOf?.(table, pot));
  const words = <PotWords {...props} />;
  return (
    <>
      <PressKey kind={styles.potTell} isExpanded={isTold} onPress={() => setIsTold(!isTold)}>
        {isTold ? (
          <>
            <span>{volume}</span> <span class={styles.notStand}>{rounds}</span>
          </>
        ) : (
          words
        )}
      </PressKey>
      <div class={styles.potPlain}>{words}</div>
    </>
  );
}

function PotWords({ table, pot, state, settings, leftOf, now }: Inside) {
  const left = leftOf?.(table, pot);
  const heats = Math.round(state.maxHeats);
  const isAtLimit = settings.heatLimit !== null && heats >= settings.heatLimit;
  const minutes = Math.max(0, Math.floor((now - state.lastHeatedAt) / 60_000));
  return (
    <div class={styles.potWords}>
      <p>
        <b>{volumeWords(state.volumeMl, settings.volumeUnit)}</b>
        {left && (
          <>
            <span class={styles.notStand}>
              about {countWords(left.rounds, 'round')}
              {left.isGuess && <span class={styles.guess}>, a guess</span>}
            </span>
            <span class={styles.onlyStand}>, {countWords(left.rounds, 'round')}</span>
          </>
        )}
      </p>
      <p>
        <span class={styles.heats}>
          <Tally heats={heats} isAtLimit={isAtLimit} />
          heat {heats}
          {settings.heatLimit !== null && ` of your ${settings.heatLimit}`}
        </span>
      </p>
      <p class={styles.lesser}>{minutes} min since the heat</p>
      {historyWords(state).map((line) => (
        <p key={line} class={styles.lesser}>
          {line}
        </p>
      ))}
    </div>
  );
}

/** What the pot has been through, beside the count of heats: minutes hot, and mean heats where they differ. */
function historyWords(state: PotState): string[] {
  const hot = `${Math.round(state.hotMin)} min hot`;
  const isMixed = Math.abs(state.meanHeats - state.maxHeats) >= 0.05;
  const mean = isMixed ? [`mean heat ${state.meanHeats.toFixed(1)}`] : [];
  return [hot, `as ${Math.round(state.doseMin)} at 165 °C`, ...mean];
}

function ReadKeys({ table, pot, state, settings, onRead }: Inside) {
  const { book } = useShop();
  const { tempUnit } = settings;
  const earlier = useLive(() => lastReadingsOf(book), ['sealed'], 'last readings');
  const lastC = earlier?.potC(pot.colourwayId) ?? null;
  const first = lastC === null ? 'not read yet' : `last: ${tempWords(lastC, tempUnit)}`;
  const [readC, setReadC] = useState<number | null>(null);
  const shownC = readC ?? state.readC ?? table.pourC;
  const step = (by: number) => {
    const next = tempUnit === 'C' ? shownC + by : cFromF(Math.round(fFromC(shownC)) + by * 2);
    setReadC(Math.min(300, Math.max(20, next)));
  };
  return (
    <StepKeys
      label="Heat reading"
      value={tempWords(shownC, tempUnit)}
      small={readC === null ? (state.readC === null ? first : 'last reading') : 'press to log'}
      says={potTempFrom(state.readC)}
      lessName="5 degrees less"
      moreName="5 degrees more"
      onLess={() => step(-5)}
      onMore={() => step(5)}
      onLog={
        readC === null
          ? undefined
          : () => {
              onRead({ kind: 'pot-read', potId: pot.id, tempC: readC });
              setReadC(null);
            }
      }
    />
  );
}
