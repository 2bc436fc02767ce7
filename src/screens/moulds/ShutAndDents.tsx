import { type LoggedShot, warmShots } from '#calc/mould-shots.ts';
import type { FactorName } from '#calc/shot-drivers.ts';
import { type ShutDents, shutDentsSteps } from '#calc/shut-dents.ts';
import { useWorkedSteps } from '#live/use-worked.ts';
import { mostAsked } from '#screens/GoesWith.tsx';
import { bandWords, noPictureWords, shutWords } from '#screens/moulds/shut-words.ts';
import { clockWords } from '#screens/words.ts';
import { conf, ofWords } from '#screens/yield-words.ts';
import { Sheet } from '#ui/Sheet.tsx';
import { TwinTable } from '#ui/TwinTable.tsx';
import { WhiskerChart } from '#ui/WhiskerChart.tsx';

interface Props {
  shots: readonly LoggedShot[];
  /** What else is held against dents on this page. */
  factors: readonly FactorName[];
  /** The time that the person chose, s; null: learnt. */
  setSec: number | null;
}

/** Dents by how long the mould stayed shut: counts, ranges, and whether the two go together. */
export function ShutAndDents({ shots, factors, setSec }: Props) {
  const found = useWorkedSteps(
    () => shutDentsSteps(warmShots(shots).slice(-mostAsked), factors, conf),
    [shots],
  );
  if (!found || shots.length === 0) return null;
  return (
    <Sheet
      title="Time shut and dents"
      {...(found.kind === 'bands' ? { aside: 'dents of 100 baits' } : {})}
    >
      {found.kind === 'bands' ? (
        <Bands found={found} setSec={setSec} />
      ) : (
        <p>{noPictureWords(found)}</p>
      )}
    </Sheet>
  );
}

type Found = Extract<ShutDents, { kind: 'bands' }>;

function Bands({ found, setSec }: { found: Found; setSec: number | null }) {
  const [lead, rest] = shutWords(found);
  const drawn = found.bands.map(({ fromSec, toSec, shots, dents, checked, shares }) => ({
    label: fromSec === null ? `to ${clockWords(toSec ?? 0)}` : clockWords(fromSec),
    p: checked > 0 ? (100 * dents) / checked : null,
    lo: (shares?.[1] ?? 0) * 100,
    hi: (shares?.[2] ?? 0) * 100,
    isOpen: shares === null,
    under: String(shots),
  }));
  const highest = Math.max(...drawn.map(({ p, hi }) => Math.max(p ?? 0, hi)));
  return (
    <>
      <WhiskerChart
        whiskers={drawn}
        across="minutes shut, from; under it the shots"
        to={Math.min(100, Math.max(10, Math.ceil(highest / 10) * 10))}
        label={`Dents of 100 baits by time shut: ${found.bands
          .map((band) => `${bandWords(band)}, ${ofWords(band.dents, band.checked)}`)
          .join('; ')}`}
      />
      <p>
        <b>{lead}</b> {rest}
        {setSec !== null && ` Your set time is ${clockWords(setSec)}.`}
      </p>
      <TwinTable
        heads={['Time shut', 'Shots', 'Dents', 'Looked at', 'Range of 100']}
        rows={found.bands.map((band) => [
          bandWords(band),
          band.shots,
          band.dents,
          band.checked,
          band.shares
            ? `${Math.round(band.shares[1] * 100)} to ${Math.round(band.shares[2] * 100)}`
            : 'too few',
        ])}
      />
    </>
  );
}
