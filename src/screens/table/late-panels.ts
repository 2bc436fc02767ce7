import type { Book } from '#store/book.ts';
import { late } from '#ui/late.tsx';

const panels = () => import('#screens/table/panels.ts');

/** The panels over the cards: nobody presses for one before the table has been drawn. */
export const TablePanel = late(async () => (await panels()).TablePanel);
export const PotPanel = late(async () => (await panels()).PotPanel);
export const PotsPanel = late(async () => (await panels()).PotsPanel);
export const MarkPanel = late(async () => (await panels()).MarkPanel);
/** The line before the next fill, which has its place from the beginning. */
export const HintLine = late(async () => (await panels()).HintLine);
/** What a hand pour, a long absence and a second window need. */
export const LayerState = late(async () => (await panels()).LayerState);
export const StillPouring = late(async () => (await panels()).StillPouring);
export const Elsewhere = late(async () => (await panels()).Elsewhere);
/** How many rounds a pot is still good for, by what the history taught; null: it cannot be read, and the table does without. */
export const roundsLeftSumOf = async (book: Book) =>
  await panels()
    .then(({ roundsLeftSum }) => roundsLeftSum(book))
    .catch(() => null);
/** The walk over all keys by pedal. */
export const keyWalkerOf = async () => (await panels()).keyWalkerIn;

export const tablePanels = [
  TablePanel,
  PotPanel,
  PotsPanel,
  MarkPanel,
  HintLine,
  LayerState,
  StillPouring,
  Elsewhere,
];
