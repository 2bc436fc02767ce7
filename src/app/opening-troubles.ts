import type { Way } from '#app/Trouble.tsx';
import type { Safety } from '#live/safety.ts';
import { heldWords } from '#screens/kept-words.ts';
import { removeDatabase } from '#store/demo.ts';
import { openingFault } from '#store/opening-fault.ts';

/** What is said when the logbook does not open: what happened, what is safe, what to do. */
const troubles: Record<ReturnType<typeof openingFault>, { title: string; text: string }> = {
  newer: {
    title: 'This logbook is newer',
    text: 'It was written by a newer Warmshot. Update the app first. Your data is untouched.',
  },
  shut: {
    title: 'This window keeps nothing',
    text: 'The browser lets this window store nothing, as private windows do. Open Warmshot in a usual window.',
  },
  full: {
    title: 'This phone is full',
    text: 'There is no room to open the logbook. Your data is untouched. Free some space and start again.',
  },
  other: {
    title: 'The logbook did not open',
    text: 'Your data is untouched. Close other windows of this app and start again.',
  },
};

/** What is said while it does not answer at all; it may still open. */
export const slow = {
  title: 'The logbook takes long to open',
  text: 'Your data is untouched. Wait a little, or start again.',
};

/** The words for a logbook that does not open. */
export function troubleOf(error: unknown) {
  const fault = openingFault(error);
  return { ...troubles[fault], ...(fault === 'other' ? { detail: String(error) } : {}), fault };
}

/**
 * The way on when a database never opens or reads again: it can be built anew while there is a
 * second copy. Null: there is none. `letGo` closes what this window holds open.
 */
export async function wayAround(
  name: string,
  safety: Safety,
  letGo: () => void = () => {},
): Promise<Way | null> {
  const copy = await safety.look().catch(() => null);
  if (!copy) return null;
  return {
    word: 'Build it anew from the second copy',
    text: `If it never opens again: the second copy has ${heldWords(copy)}. What is not in it is lost then.`,
    onPress: () => {
      letGo();
      void removeDatabase(name).then(() => window.location.reload());
    },
  };
}
