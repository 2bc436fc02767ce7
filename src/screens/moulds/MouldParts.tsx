import type { Columns } from '#calc/columns.ts';
import { trayAfter } from '#calc/tray.ts';
import type { Mould } from '#model/mould.ts';
import { partsWord, partWords } from '#screens/part-words.ts';
import { joined } from '#screens/words.ts';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  mould: Mould;
  /** The moulds of the shop. */
  shop: readonly Mould[];
  /** The history, with the session that runs. */
  columns: readonly Columns[];
}

/** The parts that a mould makes or takes: what lies in their trays, and who takes them. */
export function MouldParts({ mould, shop, columns }: Props) {
  const { id, makes, needs = [] } = mould;
  const taken = needs.flatMap(({ mouldId, each }) => {
    const maker = shop.find((one) => one.id === mouldId);
    return maker?.makes ? [{ mouldId, each, name: maker.name, part: maker.makes }] : [];
  });
  if (!makes && taken.length === 0) return null;
  const takers = shop.filter((one) => one.needs?.some(({ mouldId }) => mouldId === id));
  return (
    <Sheet title="Parts">
      {makes && <p>{partWords(trayAfter(columns, id), makes)} in its tray.</p>}
      {makes && (
        <p>
          {takers.length > 0
            ? `Taken by ${joined(takers.map(({ name }) => name))}.`
            : `No mould takes its ${partsWord(makes)} yet. Say so in the facts of that mould.`}
        </p>
      )}
      {taken.map(({ mouldId, each, name, part }) => (
        <p key={mouldId}>
          Each bait takes {partWords(each, part)} of {name}. {trayAfter(columns, mouldId)} in the
          tray.
        </p>
      ))}
      <p>Count a tray at the table: press Table, the mould, then Count tray.</p>
    </Sheet>
  );
}
