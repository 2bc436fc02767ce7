import { coldLineSteps, flaggedBy, warmUpsOf } from '#calc/cold-line.ts';
import { type Columns, columnsOf } from '#calc/columns.ts';
import { sessionsOfMould } from '#calc/last-poured.ts';
import { loggedShots } from '#calc/mould-shots.ts';
import { tableOf } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { type Change, driftSeen } from '#model/change.ts';
import type { MouldId } from '#model/mould.ts';
import { type Learnt, MouldPage } from '#screens/moulds/MouldPage.tsx';
import type { MouldNote } from '#screens/moulds/WaterNotes.tsx';
import { NotHere } from '#screens/NotHere.tsx';
import type { Book } from '#store/book.ts';
import { deletedHeadsOf, headOf, headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { remarksThat, remarkTables } from '#store/remarks.ts';
import { runningEntries } from '#store/sessions.ts';
import { settingsOf } from '#store/settings.ts';
import { breath, inSteps } from '#store/steps.ts';

/** One mould: its picture with the bad ones counted, warm shots first, cold beside. */
export function MouldScreen({ mouldId }: { mouldId: MouldId }) {
  const { book, clock } = useShop();
  const found = useLive(
    async () => {
      const running = await runningEntries(book);
      const seats = running ? tableOf(running).seats : [];
      const noted = (await headsOf(book, 'changes')).filter((each) => each.mouldId === mouldId);
      noted.sort((a, b) => b.at - a.at);
      const columns = await allColumns(book);
      const undone = await deletedHeadsOf(book, 'changes');
      const sessionId = running?.[0]?.sessionId;
      return {
        changes: noted.filter(({ kind }) => kind !== driftSeen),
        seen: noted.find(({ kind }) => kind === driftSeen) ?? null,
        takenBack: undone.filter(
          (each) =>
            each.mouldId === mouldId && each.kind !== driftSeen && isRecent(each, clock.now()),
        ),
        notes: await notesOf(book, mouldId),
        injectors: await headsOf(book, 'injectors'),
        shop: await headsOf(book, 'moulds'),
        tonight: running && sessionId ? [columnsOf(sessionId, running)] : [],
        mould: await headOf(book, 'moulds', mouldId),
        columns,
        learnt: await learntOf(columns, mouldId),
        settings: await settingsOf(book),
        isAtTable: seats.some(({ mould }) => mould.mouldId === mouldId),
      };
    },
    [
      'moulds',
      'columns',
      'settings',
      'entries',
      'changes',
      'injectors',
      'colourways',
      ...remarkTables,
    ],
    mouldId,
  );
  if (!found) return null;
  const { mould, ...rest } = found;
  if (!mould) return <NotHere what="This mould" back={{ at: 'moulds' }} word="Moulds" />;
  return <MouldPage mould={mould} {...rest} />;
}

/** The notes that name a mould, the newest first, each with its colour. */
async function notesOf(book: Book, mouldId: MouldId): Promise<MouldNote[]> {
  const { remarks } = await remarksThat(book, (one) => one.mouldId === mouldId);
  const colourways = await headsOf(book, 'colourways');
  return remarks.toReversed().map((remark) => ({
    remark,
    colourway: colourways.find(({ id }) => id === remark.colourwayId) ?? null,
  }));
}

/** What the mould's own history teaches, worked out between the reading and the drawing. */
async function learntOf(columns: readonly Columns[], mouldId: MouldId): Promise<Learnt> {
  const own = sessionsOfMould(columns, mouldId);
  await breath();
  const line = await inSteps(coldLineSteps(own, mouldId));
  await breath();
  const flagged = flaggedBy(own, new Map([[mouldId, line]]));
  const shots = loggedShots(flagged, mouldId);
  return { columns: flagged, shots, line, warmUps: warmUpsOf(own, mouldId) };
}

/** What was taken back can be brought back for 30 days. */
function isRecent({ deletedAt }: Change, now: number): boolean {
  return deletedAt !== null && now - deletedAt < 30 * 86_400_000;
}
