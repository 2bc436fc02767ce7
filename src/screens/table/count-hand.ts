import type { Meaning } from '#screens/table/meaning.ts';

/** What the main key, Undo and Back do while drops are counted over the cards. */
export interface CountHand {
  add: () => void;
  undo: () => void;
  /** Gives back what the last undo took, for a foot that stayed down. */
  bringBack: () => void;
  back: () => void;
}

/** The main key while drops are counted. */
export function dropMeaning({ add }: CountHand): Meaning {
  return {
    means: 'save',
    word: 'Drop',
    touches: 'one more',
    short: 'one more',
    isQuick: true,
    act: add,
  };
}
