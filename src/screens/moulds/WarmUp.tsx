import type { ColdLine } from '#calc/cold-line.ts';
import type { ColdShots } from '#calc/cold-shots.ts';
import { type ShotCounts, yieldInterval } from '#calc/yield.ts';
import { countWords } from '#screens/words.ts';
import { conf, ofWords } from '#screens/yield-words.ts';
import { Sheet } from '#ui/Sheet.tsx';
import { TwinTable } from '#ui/TwinTable.tsx';
import { WhiskerChart } from '#ui/WhiskerChart.tsx';

interface Props {
  warmUps: readonly ShotCounts[];
  line: ColdLine;
}

const places = 8;

/** Good of a hundred by the place of the shot after a cold start, and from which shot on it is good. */
export function WarmUp({ warmUps, line }: Props) {
  const bins = binsOf(warmUps);
  if (bins.length === 0) return null;
  const cold = line.said.kind === 'needs' ? line.said.shots : 0;
  const [lead, rest] = saidWords(line.said);
  return (
    <Sheet title="Warm-up">
      <WhiskerChart
        whiskers={bins.map((bin, index) => ({
          label: bin.label,
          p: bin.shares[0] * 100,
          lo: bin.shares[1] * 100,
          hi: bin.shares[2] * 100,
          isOpen: index < cold,
        }))}
        across="shot"
        words={['cold', 'warm']}
        label={`Good of 100 by shot: ${bins
          .map(({ label, good, checked }) => `shot ${label}, ${ofWords(good, checked)}`)
          .join('; ')}`}
      />
      <p>
        <b>{lead}</b> {rest}
      </p>
      <TwinTable
        heads={['Shot', 'Good', 'Looked at', 'Range of 100']}
        rows={bins.map(({ label, good, checked, shares: [, lo, hi] }) => [
          label,
          good,
          checked,
          `${Math.round(lo * 100)} to ${Math.round(hi * 100)}`,
        ])}
      />
    </Sheet>
  );
}

function binsOf(warmUps: readonly ShotCounts[]) {
  const longest = Math.max(0, ...warmUps.map(({ n }) => n.length));
  return Array.from({ length: Math.min(places, longest) }, (_, index) => {
    const to = index === places - 1 ? longest : index + 1;
    const x = warmUps.flatMap((warmUp) => warmUp.x.slice(index, to));
    const n = warmUps.flatMap((warmUp) => warmUp.n.slice(index, to));
    const label = index === places - 1 && longest > places ? '8 on' : String(index + 1);
    const good = x.reduce((sum, each) => sum + each, 0);
    const checked = n.reduce((sum, each) => sum + each, 0);
    return { label, good, checked, shares: yieldInterval(x, n, conf) };
  }).filter(({ checked }) => checked > 0);
}

function saidWords(said: ColdShots): [lead: string, rest: string] {
  switch (said.kind) {
    case 'needs': {
      const { shots, cold, warm, warmUps, likely } = said;
      const other = likely.filter((one) => one !== shots);
      const maybe = other.length > 0 ? `, maybe ${other.join(' or ')}` : '';
      const needs = `This mould needs ${countWords(shots, 'cold shot')}${maybe}.`;
      const first = shots === 1 ? 'The first' : `The first ${shots}`;
      return [
        `Good from shot ${shots + 1}.`,
        `${needs} ${first}: ${ofWords(cold.good, cold.total)} good. After that: ${ofWords(warm.good, warm.total)}. Seen in ${countWords(warmUps, 'warm-up')}.`,
      ];
    }
    case 'none-seen':
      return ['Good from shot 1.', `No cold shots seen in ${countWords(said.warmUps, 'warm-up')}.`];
    case 'unclear':
      return [
        'Not clear yet.',
        `Whether the first shots are worse does not show in ${countWords(said.warmUps, 'warm-up')}. A few more will tell.`,
      ];
    case 'too-early': {
      const missing = Math.max(1, said.needed - said.warmUps);
      return [
        'Too early to tell.',
        `About ${countWords(missing, 'more warm-up')} of some shots each.`,
      ];
    }
  }
}
