/** How much there is, for telling at the next start that something went missing. */
export interface Held {
  sessions: number;
  entries: number;
  moulds: number;
  /** Every other thing of the shop; the settings are not counted as one. */
  others: number;
  /** Photos with their picture, and without; those that were taken off the wall are not counted. */
  pictures: number;
  bare: number;
  /** Everything, of every table that cannot be worked out again. */
  records: number;
}

/** Nothing at all. */
export const noneHeld: Held = {
  sessions: 0,
  entries: 0,
  moulds: 0,
  others: 0,
  pictures: 0,
  bare: 0,
  records: 0,
};
