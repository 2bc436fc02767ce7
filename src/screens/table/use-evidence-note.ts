import { useMemo } from 'preact/hooks';
import type { LitCavity } from '#calc/running-evidence.ts';
import type { Seat } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';

const words: Record<LitCavity['defect'], (cavity: number) => string> = {
  short: (cavity) => `Cavity ${cavity} short again: vent?`,
  dent: (cavity) => `Cavity ${cavity} dent again: look?`,
  bubble: (cavity) => `Cavity ${cavity} bubble again: vent?`,
};

/**
 * One quiet line while the evidence holds that a cavity fails more than its neighbours; null:
 * nothing. The sums and the past come after the table is drawn, and the table does without them.
 */
export function useEvidenceNote(seat: Seat): string | null {
  const { book } = useShop();
  const { mouldId } = seat.mould;
  const past = useLive(
    async () => {
      try {
        const [{ evidenceOf }, { litCavity }] = await Promise.all([
          import('#store/evidence.ts'),
          import('#calc/running-evidence.ts'),
        ]);
        return { evidence: await evidenceOf(book, mouldId), litCavity };
      } catch {
        // A hint is not worth an error page at the table.
        return null;
      }
    },
    ['columns', 'changes'],
    mouldId,
  );
  return useMemo(() => {
    const lit = past?.litCavity(seat, past.evidence);
    return lit ? words[lit.defect](lit.cavity) : null;
  }, [past, seat]);
}
