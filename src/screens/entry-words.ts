import type { Line } from '#calc/log.ts';
import { type NamesNow, nameNow } from '#calc/names-now.ts';
import { heatNumberAt, plastisolGPerMl } from '#calc/pot-course.ts';
import type { Shot, Table } from '#calc/table.ts';
import { countOf } from '#calc/tonight.ts';
import type { EntryId, MixedPot, PotId, Said, SaidOf, ShotId } from '#model/entry.ts';
import type { MouldId } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import { massWords } from '#screens/amounts.ts';
import { doseWords } from '#screens/dose-words.ts';
import { openedWords } from '#screens/result-words.ts';
import { trialWords } from '#screens/trial-words.ts';
import { verdictWords } from '#screens/verdict-words.ts';
import { loadWords, type VolumeUnit, volumeWords } from '#screens/volumes.ts';
import { clockWords, gramWords, joined, tempWords } from '#screens/words.ts';

/** The units that the person reads. */
export interface Units {
  tempUnit: 'C' | 'F';
  volumeUnit: VolumeUnit;
  massUnit?: 'g' | 'oz' | undefined;
  /** How materials are called by now; absent: as the log has it. */
  names?: NamesNow;
}

/** One line of the log: the outcome first, where it happened second. */
export interface EntryWords {
  what: string;
  where: string;
  /** Something was bad: the line carries the block with the cut corner. */
  isBad: boolean;
}

/** A line of the log in words. */
export function entryWords(table: Table, line: Line, units: Units): EntryWords {
  const { said } = line;
  if (said.kind === 'opened') {
    const shots = shotsOf(table, said.shots);
    const names = shots.map((shot) => mouldName(table, shot.mouldId));
    return {
      what: openedWords(
        said.shots.map(({ results }) => results),
        names,
      ),
      where: joined(shots.map((shot) => shotName(table, shot))) || 'Its fill was taken back',
      isBad: said.shots.some(({ results }) => countOf(results).bad > 0),
    };
  }
  const [what, where] = plainWords(table, said, units, line);
  return { what, where, isBad: false };
}

/** A shot by its mould and number, `Grub 50, shot 12`. */
export function shotName(table: Table, shot: Shot): string {
  return `${mouldName(table, shot.mouldId)}, shot ${shot.number}`;
}

function plainWords(
  table: Table,
  said: Exclude<Said, SaidOf<'opened'>>,
  { tempUnit, volumeUnit, massUnit, names }: Units,
  { id, at }: { id: EntryId; at: Instant },
): [what: string, where: string] {
  switch (said.kind) {
    case 'session-begun':
      return ['Session begun', `Shop ${tempWords(said.ambientC, tempUnit)}`];
    case 'ambient-read':
      return [`Shop ${tempWords(said.ambientC, tempUnit)}`, 'Reading'];
    case 'lined-up':
      return ['Moulds on the table', joined(said.moulds.map(({ name }) => name)) || 'None'];
    case 'pot-mixed': {
      const volumeMl = said.pots.reduce((sum, pot) => sum + pot.volumeMl, 0);
      const version = said.pots.find(({ mix }) => mix)?.mix?.version;
      const name = version === undefined ? said.name : `${said.name} ${version}`;
      const where = `${name}, ${volumeWords(volumeMl, volumeUnit)}`;
      return [
        'New mix',
        [where, ...said.pots.flatMap((pot) => cupWords(pot, said, names))].join('. '),
      ];
    }
    case 'pot-heated':
      return ['Pot reheated', heatWords(table, said.potId, at)];
    case 'pot-topped-up':
      return [`Topped up ${volumeWords(said.volumeMl, volumeUnit)}`, potName(table, said.potId)];
    case 'pot-read':
      return [`Pot ${tempWords(said.tempC, tempUnit)}`, `${potName(table, said.potId)}, reading`];
    case 'pot-emptied':
      return [emptiedWords(said.leftMl, massUnit), potName(table, said.potId)];
    case 'filled':
      return filledWords(table, said, id, volumeUnit);
    case 'clock-stopped':
      return ['Clock ended by hand', joined(shotsOf(table, [said]).map((s) => shotName(table, s)))];
    case 'skipped':
      return [
        said.isSkipped ? 'Sits a round out' : 'Back in the round',
        mouldName(table, said.mouldId),
      ];
    case 'cavity-closed':
      return [
        `Cavity ${said.cavity} ${said.isClosed ? 'closed off' : 'opened again'}`,
        mouldName(table, said.mouldId),
      ];
    case 'set-time-chosen':
      return [setTimeWords(said), mouldName(table, said.mouldId)];
    case 'mould-read':
      return [
        `Mould ${tempWords(said.tempC, tempUnit)}`,
        `${mouldName(table, said.mouldId)}, reading`,
      ];
    case 'layer-poured':
      return layerWords(table, said, at);
    case 'layers-ended':
      return ['Last layer', joined(shotsOf(table, [said]).map((s) => shotName(table, s)))];
    case 'pot-chosen':
      return ['Pour from', joined(said.potIds.map((potId) => potName(table, potId)))];
    case 'injector-taken':
      return ['Injector', said.injector?.name ?? 'None'];
    case 'tray-counted':
      return [`Tray counted: ${said.count}`, mouldName(table, said.mouldId)];
    case 'tried':
      return [
        said.did === null ? 'No trial' : `Trial: ${trialWords[said.what][said.did ? 0 : 1]}`,
        joined(shotsOf(table, [said]).map((s) => shotName(table, s))),
      ];
    case 'colours-planned':
      return ['Colours in order', `${said.colourwayIds.length} of them`];
    case 'pourer-named':
      return [`${said.name} pours`, 'Who pours'];
    case 'noted':
      return [said.text, 'Note'];
    case 'scrap-weighed':
      return [`Bad baits weighed: ${gramWords(said.massG)}`, 'On the scale'];
    case 'laminate-judged':
      return [
        verdictWords[said.verdict],
        said.colourwayId === null ? 'Made up at the table' : colourName(table, said.colourwayId),
      ];
    case 'session-ended':
      return ['Session finished', ''];
  }
}

function emptiedWords(leftMl: number | null | undefined, unit: 'g' | 'oz' = 'g'): string {
  if (leftMl === 0) return 'Pot poured dry';
  if (typeof leftMl !== 'number') return 'Pot emptied';
  return `Pot emptied, ${massWords(leftMl * plastisolGPerMl, unit)} left`;
}

/** What went into one cup, and its number: `Cup 1203-2: 12 drops Brown, ½ tsp Green flake`. */
function cupWords(
  { name, batch, mix }: MixedPot,
  { pots }: SaidOf<'pot-mixed'>,
  names?: NamesNow,
): string[] {
  const cup = batch ? `Cup ${batch}` : '';
  const doses = (mix?.doses ?? []).map(
    (dose) => `${doseWords(dose.amount, dose.unit)} ${nameNow(dose, names)}`,
  );
  // Of one pot the line has said the name already.
  const head = [pots.length > 1 && (cup || doses.length > 0) ? name : '', cup]
    .filter(Boolean)
    .join(', ');
  if (doses.length === 0) return head ? [head] : [];
  return [head ? `${head}: ${doses.join(', ')}` : doses.join(', ')];
}

function filledWords(
  table: Table,
  said: SaidOf<'filled'>,
  id: EntryId,
  unit: VolumeUnit,
): [string, string] {
  const own = table.shots.filter((shot) => shot.filledBy === id);
  const names = joined(said.shots.map(({ mouldId }) => mouldName(table, mouldId)));
  const round = own[0] ? `, round ${own[0].round}` : '';
  const isWaiting = own.some((shot) => shot.loggedAt === null);
  const loadMl = said.shots.reduce((sum, { volumeMl }) => sum + volumeMl, 0);
  const load = loadWords(loadMl, unit);
  return [isWaiting ? 'Filled, not checked' : 'Filled', `${names}${round}, ${load}`];
}

function layerWords(table: Table, said: SaidOf<'layer-poured'>, at: Instant): [string, string] {
  const shots = shotsOf(table, said.shots);
  const layers = shots[0]?.layers ?? [];
  const place = layers.findIndex(
    (layer) => layer.at === at && layer.potIds.includes(said.potId as PotId),
  );
  const below = layers[place - 1];
  const gap = below ? `, after ${clockWords((at - below.at) / 1_000)}` : '';
  return [
    `Layer ${place + 1} from ${potName(table, said.potId)}${gap}`,
    joined(shots.map((shot) => shotName(table, shot))) || 'Its fill was taken back',
  ];
}

function heatWords(table: Table, potId: string, at: Instant): string {
  const pot = table.pots.find(({ id }) => id === potId);
  return pot ? `${pot.name}, heat ${Math.round(heatNumberAt(pot, at))}` : '';
}

function setTimeWords({ hasNoClock, setSec }: SaidOf<'set-time-chosen'>): string {
  if (hasNoClock) return 'Poured without a clock';
  return setSec === null ? 'Set time as learnt' : `Set time ${clockWords(setSec)}`;
}

function shotsOf(table: Table, named: readonly { shotId: ShotId }[]): Shot[] {
  return named.flatMap(({ shotId }) => table.shots.find(({ id }) => id === shotId) ?? []);
}

function mouldName(table: Table, mouldId: MouldId): string {
  return table.allSeats.find(({ mould }) => mould.mouldId === mouldId)?.mould.name ?? 'A mould';
}

function colourName(table: Table, colourwayId: string): string {
  const pot = table.pots.find((one) => one.colourwayId === colourwayId);
  return pot?.colourwayName ?? 'A laminate';
}

function potName(table: Table, potId: string): string {
  return table.pots.find(({ id }) => id === potId)?.name ?? 'A pot';
}
