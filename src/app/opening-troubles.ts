import type { Way } from '#app/Trouble.tsx';
import type { Safety } from '#live/safety.ts';
import { systemClock } from '#platform/clock.ts';
import { deviceFiles } from '#platform/files.ts';
import { heldWords } from '#screens/kept-words.ts';
import { countWords } from '#screens/words.ts';
import { removeDatabase } from '#store/demo.ts';
import { openingFault } from '#store/opening-fault.ts';
import { rawLogbook } from '#store/raw.ts';

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
 * The way on while the app is older than the logbook: everything in it as text, read and not written.
 * `show` puts the way on the page, again when something came of it.
 */
export function textWay(name: string, show: (way: Way) => void): void {
  const way = {
    word: 'Save it as text',
    text: 'Every record as readable lines, without pictures. Nothing in the logbook is changed.',
    onPress: () => void save(),
  };
  const { now, zone } = systemClock();
  async function save() {
    try {
      const { file, records, pictures } = await rawLogbook(name, now(), zone());
      deviceFiles.save(file);
      const text = `${countWords(records, 'record')} written to ${file.name}. ${countWords(pictures, 'picture')} left out. Look whether it is there.`;
      show({ ...way, text });
    } catch {
      show({ ...way, text: 'That did not work. Free some space and press again.' });
    }
  }
  show(way);
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
