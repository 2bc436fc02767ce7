import type { OpenLine } from '#screens/pour/open-line.ts';
import { volumeWords } from '#screens/volumes.ts';
import { tempWords } from '#screens/words.ts';

/** What the line before of the same kind and pot or mould said; undefined: this was the first. */
export function lastTold({ line, table, units }: OpenLine): string | undefined {
  const { said, at } = line;
  const pot = 'potId' in said ? table.pots.find(({ id }) => id === said.potId) : undefined;
  const earlier = (pot?.course ?? []).filter((event) => event.at < at);
  switch (said.kind) {
    case 'pot-read': {
      const read = earlier.findLast(({ kind }) => kind === 'read');
      return read?.kind === 'read' ? tempWords(read.tempC, units.tempUnit) : undefined;
    }
    case 'mould-read': {
      const seat = table.allSeats.find(({ mould }) => mould.mouldId === said.mouldId);
      const read = seat?.readings.findLast((one) => one.at < at);
      return read && tempWords(read.tempC, units.tempUnit);
    }
    case 'pot-topped-up': {
      const added = earlier.findLast(({ kind }) => kind === 'filled');
      return added?.kind === 'filled' ? volumeWords(added.volumeMl, units.volumeUnit) : undefined;
    }
    case 'pot-mixed': {
      const mixed = table.pots.findLast(({ mixedAt }) => mixedAt < at);
      return mixed && volumeWords(mixed.mixedMl, units.volumeUnit);
    }
    default:
      return undefined;
  }
}
