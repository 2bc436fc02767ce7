import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { eventWords } from '#screens/keep/coming-lines.ts';
import { fieldWords, type Reader } from '#screens/keep/field-words.ts';
import { kindWord, wayWords } from '#screens/what-words.ts';
import { countWords, dateWords } from '#screens/words.ts';
import type { Coming, ComingSession } from '#store/copy/difference.ts';
import { entriesOf } from '#store/sessions.ts';
import styles from './Keep.module.css';

/** So many events of one session are written out. */
const shown = 300;

/** One thing that comes; what is new in it is a press away. */
export function ComingThing({ coming, reader }: { coming: Coming; reader: Reader }) {
  const { session, fields } = coming;
  const [isOpen, setOpen] = useState(false);
  const head = (
    <>
      <b>{comingWords(coming, reader.today)}</b>
      <small>{wayWords[coming.what]}</small>
    </>
  );
  if (!session && fields.length === 0) return <li>{head}</li>;
  return (
    <li class={styles.thing}>
      <details onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
        <summary>{head}</summary>
        {isOpen && session && <Events session={session} reader={reader} />}
        {isOpen && fields.length > 0 && (
          <ul>
            {fields.map((one) => (
              <li key={one.field}>{fieldWords(one, reader)}</li>
            ))}
          </ul>
        )}
      </details>
    </li>
  );
}

/** The new lines of a session, event by event. */
function Events({ session, reader }: { session: ComingSession; reader: Reader }) {
  const { book } = useShop();
  const { sessionId, newIds } = session;
  const entries = useLive(
    async () => session.entries ?? (await entriesOf(book, sessionId)),
    ['entries', 'sealed'],
    sessionId,
  );
  if (!entries) return null;
  const events = eventWords(entries, newIds, reader);
  return (
    <>
      <ul>
        {events.slice(0, shown).map(({ id, time, what, where }) => (
          <li key={id}>
            <time>{time}</time> {what}
            {where && `. ${where}`}
          </li>
        ))}
      </ul>
      {events.length > shown && <p>And {events.length - shown} more.</p>}
      {events.length < newIds.length && (
        <p>{countWords(newIds.length - events.length, 'line')} of them went away since.</p>
      )}
    </>
  );
}

function comingWords({ table, name, session }: Coming, today: string): string {
  const kind = kindWord(table);
  if (!session) return name ? `${kind}: ${name}` : kind;
  const day = dateWords(dayOf(session.startedAt, session.zone), today);
  const shots = countWords(session.shots, 'shot');
  return `${kind}: ${day}, ${shots}, ${countWords(session.newIds.length, 'new line')}`;
}
