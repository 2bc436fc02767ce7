import { jumpWords } from '#screens/table/use-clock-jump.ts';
import styles from './Table.module.css';

/** The one line that lies over the round line when something must be said. */
export interface Said {
  kind: 'alarm' | 'clock' | 'news';
  words: string;
  /** The same where the line is short; left out: the words fit. */
  short?: string;
}

interface Facts {
  /** Presses wait in memory, or the end of the session could not be stored. */
  isUnsaved: boolean;
  isAsking: boolean;
  hasJumped: boolean;
  news: string | null;
}

/** What must be said now, the gravest first; null: nothing. */
export function noticeOf({ isUnsaved, isAsking, hasJumped, news }: Facts): Said | null {
  if (isUnsaved) return { kind: 'alarm', words: 'Not saving. Free some space.' };
  if (isAsking) return { kind: 'news', words: 'Still pouring?' };
  if (hasJumped)
    return { kind: 'clock', words: jumpWords, short: 'Clock jumped. Times may be off.' };
  return news ? { kind: 'news', words: news } : null;
}

/** Lies over what can wait and moves nothing; no finger is stopped by it. */
export function Notice({ notice: { kind, words, short } }: { notice: Said }) {
  return (
    <p class={styles.notice} data-kind={kind} role={kind === 'alarm' ? 'alert' : undefined}>
      {short ? (
        <>
          <span class={styles.notStand}>{words}</span>
          <span class={styles.onlyStand}>{short}</span>
        </>
      ) : (
        words
      )}
    </p>
  );
}
