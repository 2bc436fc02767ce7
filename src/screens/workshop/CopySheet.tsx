import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { ageWords, sinceTables, sinceWords } from '#screens/copy-words.ts';
import { hrefTo } from '#screens/routes.ts';
import { Row } from '#screens/workshop/Row.tsx';
import { keptAside } from '#store/copy/aside.ts';
import { sinceCopy } from '#store/copy/since.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Rows.module.css';

/** The ways out of the phone and into it. */
export function CopySheet() {
  const { book, clock } = useShop();
  const since = useLive(() => sinceCopy(book), sinceTables, 'since');
  const cameIn = useLive(async () => (await keptAside(book, 'brought-in')) ?? null, ['meta'], 'in');
  if (!since || cameIn === undefined) return null;
  const { last } = since;
  const only = sinceWords(since);
  const age = last
    ? `Last copy: ${ageWords(last.at, clock.now(), clock.zone())}.`
    : 'None has left this phone yet.';
  return (
    <Sheet title="Copies">
      <ul class={styles.rows}>
        <Row title="Take a copy" says={only ? `${age} Only here: ${only}.` : age}>
          <ActKey href={hrefTo({ at: 'keep' })} label="Copy the logbook">
            Copy
          </ActKey>
        </Row>
        <Row
          title="Open a copy"
          says={
            cameIn
              ? `Came in last, ${ageWords(cameIn.at, clock.now(), clock.zone())}: ${cameIn.name}. What it brought is listed there.`
              : 'Back from a file, or from another phone.'
          }
        >
          <ActKey href={hrefTo({ at: 'open-copy' })} label="Open a copy">
            Open
          </ActKey>
        </Row>
        <Row title="Tables" says="To a spreadsheet, and moulds and sessions from one.">
          <ActKey href={hrefTo({ at: 'tables' })} label="Tables for a spreadsheet">
            Tables
          </ActKey>
        </Row>
      </ul>
    </Sheet>
  );
}
