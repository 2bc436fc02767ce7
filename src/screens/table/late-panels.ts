import { late } from '#ui/late.tsx';

/** The panels over the cards: nobody presses for one before the table has been drawn. */
export const PotPanel = late(async () => (await import('#screens/table/PotPanel.tsx')).PotPanel);
export const TablePanel = late(
  async () => (await import('#screens/table/TablePanel.tsx')).TablePanel,
);
export const PotsPanel = late(async () => (await import('#screens/table/PotsPanel.tsx')).PotsPanel);
