import type { DriverVerdict } from '#calc/driver-refusals.ts';
import type { FactorName, ShotDrivers } from '#calc/shot-drivers.ts';
import { countWords, defectWords } from '#screens/words.ts';

interface FactorWords {
  /** On its own, in the middle of a sentence. */
  word: string;
  /** What more and less of it is called. */
  more: string;
  less: string;
  per: string;
  experiment: string;
}

/** What may be said of all factors, sentence by sentence. */
export interface GoesWithSaid {
  lead: string;
  rest: string[];
}

/** The odds beyond which nobody keeps counting. */
const mostOdds = 99;

/** What a defect goes with, in words that never say "causes". */
export function goesWithWords(
  { said, names, outcome }: ShotDrivers,
  injectorName: string,
  tempUnit: 'C' | 'F',
): GoesWithSaid {
  const defect = outcome === 'bad' ? 'Bad baits' : defectNames(outcome);
  if (said.kind === 'nothing-to-explain') return { lead: 'Nothing to explain.', rest: [] };
  if (said.kind === 'too-few-shots') {
    const missing = countWords(said.needed - said.shots, 'more shot');
    return { lead: 'Too early to tell.', rest: [`About ${missing}.`] };
  }
  const words = wordsOf(injectorName, tempUnit);
  const each = said.factors.flatMap((verdict, index) => {
    const name = names[index];
    return name ? [{ verdict, words: words[name], name }] : [];
  });
  const found = each.filter(({ verdict }) => verdict.kind === 'goes-with');
  const none = each.filter(({ verdict }) => verdict.kind === 'no-sign');
  const refused = each.flatMap((one) => refusalWords(one.verdict, one.words, each) ?? []);
  const isEarly = found.length + none.length === 0;
  const lead =
    found.length > 0
      ? `${defect} go with ${found.map((one) => sideOf(one)).join(', and with ')}.`
      : isEarly
        ? 'Too early to tell.'
        : `No sign that ${defect.toLowerCase()} go with anything noted.`;
  const sign =
    found.length > 0 && none.length > 0
      ? [`No sign for ${none.map((one) => one.words.word).join(' or ')}.`]
      : [];
  return {
    lead,
    rest: [
      ...found.map((one) => oddsWords(one.verdict, one.words)),
      ...sign,
      ...new Set(refused),
      ...(said.isOneAtATime && !isEarly
        ? ['Each was looked at alone: too few bad ones for all at once.']
        : []),
      `From ${countWords(said.shots, 'shot')} in ${countWords(said.sessions, 'session')}.`,
      ...found.map((one) => `To be sure, ${one.words.experiment}.`),
    ],
  };
}

interface Each {
  verdict: DriverVerdict;
  words: FactorWords;
  name: FactorName;
}

function sideOf({ verdict, words }: Each): string {
  return verdict.kind === 'goes-with' && verdict.oddsRatio < 1 ? words.less : words.more;
}

function oddsWords(verdict: DriverVerdict, { per }: FactorWords): string {
  if (verdict.kind !== 'goes-with') return '';
  const { oddsRatio, lo, hi } = verdict;
  const [odds, from, to] = oddsRatio < 1 ? [1 / oddsRatio, 1 / hi, 1 / lo] : [oddsRatio, lo, hi];
  return `The odds are ${timesWords(odds)} times${per} (${timesWords(from)} to ${timesWords(to)}).`;
}

function refusalWords(
  verdict: DriverVerdict,
  { word }: FactorWords,
  each: readonly Each[],
): string | null {
  switch (verdict.kind) {
    case 'too-few-values':
      return `${capital(word)}: too few different values to say.`;
    case 'too-few-sessions':
      return verdict.sessions < verdict.needed
        ? `${capital(word)}: too early, ${verdict.sessions} of ${verdict.needed} sessions.`
        : `${capital(word)}: too few sessions with one of the two.`;
    case 'tangled': {
      const others = verdict.with.flatMap((at) => each[at]?.words.word ?? []);
      return `${capital([word, ...others].sort().join(' and '))} moved together. Change one alone for 10 shots.`;
    }
    case 'too-few-failures':
      return `${capital(word)}: too early, ${Math.floor(verdict.effective)} of ${verdict.needed} that count.`;
    default:
      return null;
  }
}

function wordsOf(injectorName: string, tempUnit: 'C' | 'F'): Record<FactorName, FactorWords> {
  return {
    'mould-temperature': {
      word: 'mould temperature',
      more: 'a warmer mould',
      less: 'a colder mould',
      per: tempUnit === 'C' ? ' for every 10 °C' : ' for every 18 °F',
      experiment: 'pour 10 shots colder and 10 warmer, taking turns',
    },
    'time-shut': {
      word: 'time shut',
      more: 'staying shut longer',
      less: 'opening sooner',
      per: ' for every half minute',
      experiment: 'open 10 shots sooner and 10 later, taking turns',
    },
    heat: {
      word: 'heats of the pot',
      more: 'a pot heated more often',
      less: 'a pot heated less often',
      per: ' for every heat',
      experiment: 'pour 10 shots from a first heat and 10 from a third, taking turns',
    },
    injector: {
      word: 'injector',
      more: injectorName,
      less: `not using ${injectorName}`,
      per: ' those of the other injector',
      experiment: 'pour 10 shots with each injector, taking turns',
    },
  };
}

function defectNames(outcome: Exclude<ShotDrivers['outcome'], 'bad'>): string {
  const word = defectWords[outcome];
  return outcome === 'short' ? 'Short fills' : outcome === 'flash' ? 'Flashes' : `${word}s`;
}

/** Odds in words, `1.8`, `12`, `over 99`. */
export function timesWords(odds: number): string {
  if (odds > mostOdds) return `over ${mostOdds}`;
  return odds.toFixed(odds < 9.95 ? 1 : 0);
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
