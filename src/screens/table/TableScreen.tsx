import { useEffect } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { useSessionLog } from '#live/use-session-log.ts';
import { useTableHand } from '#live/use-table-hand.ts';
import { KeySize } from '#screens/table/key-size.ts';
import { Elsewhere } from '#screens/table/late-panels.ts';
import { leaveTable } from '#screens/table/leave.ts';
import { PourTable } from '#screens/table/PourTable.tsx';
import { draftOf } from '#store/drafts.ts';
import { settingsOf } from '#store/settings.ts';

/** The pour table of the running session; without one, the way back to Pour. */
export function TableScreen() {
  const { book } = useShop();
  const log = useSessionLog();
  const [isHere, takeTable] = useTableHand();
  const settings = useLive(() => settingsOf(book), ['settings'], 'settings');
  const sessionId = log?.sessionId;
  const draft = useLive(
    async () => (sessionId ? await draftOf(book, sessionId) : null),
    ['drafts'],
    // Read anew when the table comes back from another window: what it told last may be on its way still.
    `${sessionId} ${isHere === false}`,
  );
  useEffect(() => {
    if (log === null) leaveTable();
  }, [log === null]);
  if (!log || !settings || !draft || isHere === null) return null;
  if (!isHere) return <Elsewhere unsaved={log.unsaved} onTake={takeTable} />;
  return (
    <KeySize.Provider value={settings.keySize}>
      <PourTable log={log} settings={settings} draft={draft} />
    </KeySize.Provider>
  );
}
