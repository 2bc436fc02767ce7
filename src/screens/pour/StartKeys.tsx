import type { Columns } from '#calc/columns.ts';
import { clockText, dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { hrefTo } from '#screens/routes.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import { joined, weekdayWords } from '#screens/words.ts';
import { reopenSession } from '#store/sessions.ts';
import { type lastTime, startPouring } from '#store/start.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './StartKeys.module.css';

/** A session that ended longer ago than this is over. */
const carryOnMs = 18 * 3_600_000;

interface Props {
  /** What the last session was poured with, as far as it still exists. */
  last: Awaited<ReturnType<typeof lastTime>>;
  /** The newest ended session. */
  newest: Columns | undefined;
  hasReadCautions: boolean;
}

/** The ways to the table. */
export function StartKeys({ last, newest, hasReadCautions }: Props) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();

  /** Begins once, however often the key is pressed: also when a press comes after it has begun. */
  const begin = (beginning: () => Promise<unknown>) =>
    act(async () => {
      await beginning();
      return { at: hasReadCautions ? 'table' : 'cautions' };
    });

  async function startAgain() {
    if (!last) return;
    const beginning = {
      mouldIds: last.moulds.map(({ id }) => id),
      injectorId: last.injectorId,
      colourwayId: last.colourway?.id ?? null,
      zone: clock.zone(),
    };
    await startPouring(book, beginning, clock.now());
  }

  return (
    <div class={styles.keys}>
      {last && (
        <ActKey size="main" small={sameWords(last)} onPress={() => void begin(startAgain)}>
          Start with the same moulds
        </ActKey>
      )}
      {newest && clock.now() - newest.endedAt < carryOnMs && (
        <ActKey
          size="big"
          small={`ended ${clockText(newest.endedAt, newest.zone)}`}
          onPress={() => void begin(() => reopenSession(book, newest.sessionId, clock.now()))}
        >
          Carry on {weekdayWords(dayOf(newest.startedAt, newest.zone))}'s session
        </ActKey>
      )}
      <ActKey size={last ? 'big' : 'main'} href={hrefTo({ at: 'line-up' })}>
        {last ? 'Choose other moulds' : 'Choose moulds'}
      </ActKey>
      {trouble && (
        <p class={styles.trouble} role="alert">
          {trouble}
        </p>
      )}
    </div>
  );
}

function sameWords({ moulds, colourway }: NonNullable<Props['last']>): string {
  const names = joined(moulds.map(({ name }) => name));
  return colourway ? `${names}, ${colourway.name}` : names;
}
