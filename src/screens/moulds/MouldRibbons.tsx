import type { Columns } from '#calc/columns.ts';
import { dayOf } from '#calc/days.ts';
import { sessionsOfMould } from '#calc/last-poured.ts';
import type { MouldId } from '#model/mould.ts';
import { mouldYieldOf } from '#screens/moulds/mould-view.ts';
import { ribbonOf, ribbonWords } from '#screens/ribbon.ts';
import { hrefTo } from '#screens/routes.ts';
import { dateWords } from '#screens/words.ts';
import { ofWords } from '#screens/yield-words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { RibbonKey } from '#ui/RibbonKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ShotRibbon } from '#ui/ShotRibbon.tsx';
import styles from './MouldPage.module.css';

const shown = 4;

/** Every shot of the last sessions with this mould. */
export function MouldRibbons(props: {
  columns: readonly Columns[];
  mouldId: MouldId;
  today: number;
}) {
  const { columns, mouldId, today } = props;
  const sessions = sessionsOfMould(columns, mouldId)
    .filter((session) => mouldYieldOf([session], mouldId, 'all') !== null)
    .slice(-shown)
    .toReversed();
  if (sessions.length === 0) return null;
  return (
    <Sheet title="Last sessions" isFolded>
      {sessions.map((session) => {
        const own = mouldYieldOf([session], mouldId, 'all');
        const day = dayOf(session.startedAt, session.zone);
        if (!own) return null;
        return (
          <div key={session.sessionId} class={styles.session}>
            <ActKey href={hrefTo({ at: 'session', sessionId: session.sessionId })}>
              {dateWords(day, dayOf(today, session.zone))}:{' '}
              {ofWords(own.tally.good, own.tally.checked)} good
            </ActKey>
            <ShotRibbon shots={ribbonOf(own)} label={ribbonWords(own)} height="low" />
          </div>
        );
      })}
      <RibbonKey />
    </Sheet>
  );
}
