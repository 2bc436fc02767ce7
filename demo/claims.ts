import {
  cavityChangeVerdict,
  changeVerdict,
  type Difference,
  newcombe,
} from '#calc/before-after.ts';
import { cavityVerdicts } from '#calc/cavities.ts';
import { type ColdShots, coldShots } from '#calc/cold-shots.ts';
import { total } from '#calc/counts.ts';
import { type Drivers, drivers } from '#calc/driver-verdicts.ts';
import { effectAcross, together } from '#calc/yield.ts';
import { countsOf, yieldsByMould } from '#calc/yields.ts';
import type { Defect } from '#model/defect.ts';
import type { DemoShop } from '#model/demo-shop.ts';
import { countsBySession, type DemoShot, digestsOf, matrixOf } from './figures.ts';
import { colourways, injectors, moulds } from './shop.ts';
import { earlyBelow, truths } from './truths.ts';

const watched: readonly Defect[] = ['short', 'dent', 'bubble', 'tear', 'flash', 'streak'];
const mouldNames = Object.values(moulds).map(({ facts }) => facts.name);
const colourNames = Object.values(colourways).map(({ name }) => name);

/** Several colours are looked at, each with an interval that is wrong once in a thousand times. */
const colourConf = 0.999;
const injectorConf = 0.99;

/** Every cavity that the product says stands out, over all, before and after the vent was opened. */
export function standingOut(shots: readonly DemoShot[]): string[] {
  const periods = [
    ['all', shots],
    ['before', shots.filter(({ isBefore }) => isBefore)],
    ['after', shots.filter(({ isBefore }) => !isBefore)],
  ] as const;
  return mouldNames.flatMap((mould) =>
    periods.flatMap(([period, of]) =>
      watched.flatMap((defect) => {
        const own = of.filter((shot) => shot.mould === mould);
        const said = cavityVerdicts(matrixOf(own, defect));
        if (said.kind !== 'judged') return [];
        return said.cavities.flatMap(({ verdict }, index) =>
          verdict === 'stands-out' ? [`${mould} ${index + 1} ${defect} ${period}`] : [],
        );
      }),
    ),
  );
}

/** Every cavity and whole mould whose shorts changed with the opening of the vent. */
export function changedByVent(shots: readonly DemoShot[]): string[] {
  return mouldNames.flatMap((mould) => {
    const own = shots.filter((shot) => shot.mould === mould);
    const before = own.filter(({ isBefore }) => isBefore);
    const after = own.filter(({ isBefore }) => !isBefore);
    const [was, is] = [matrixOf(before, 'short'), matrixOf(after, 'short')];
    const cavities = (own[0]?.results ?? []).map((_, index) => ({
      what: `${mould} ${index + 1}`,
      kind: cavityChangeVerdict(was, is, index, true).kind,
    }));
    const kind = changeVerdict(warmShorts(before), warmShorts(after)).kind;
    const whole = { what: mould, kind };
    return [...cavities, whole]
      .filter(({ kind }) => kind === 'helped' || kind === 'made-worse')
      .map(({ what, kind }) => `${what} ${kind}`);
  });
}

/** What is said of the cold shots of each mould, all its warm-ups pooled. */
export function coldByMould(shop: DemoShop): Map<string, ColdShots> {
  return new Map(
    yieldsByMould(digestsOf(shop)).map(({ name, sessions }) => [
      name,
      coldShots(countsOf(sessions)),
    ]),
  );
}

/** Every colour of which more or fewer baits dent when opened early than when not. */
export function dentingEarly(shots: readonly DemoShot[]): string[] {
  const isEarly = earlyOf(shots);
  return colourNames.filter((colour) => {
    const own = shots.filter((shot) => shot.colour === colour && shot.openSec > 0);
    const late = own.filter((shot) => !isEarly(shot));
    return isDifferent(difference(own.filter(isEarly), late, 'dent', colourConf));
  });
}

/** Every colour that dents unlike the others though it stayed shut, or shorts unlike them when warm. */
export function colourDifferences(shots: readonly DemoShot[]): string[] {
  const isEarly = earlyOf(shots);
  const late = shots.filter((shot) => shot.openSec > 0 && !isEarly(shot));
  const looks = [
    ['dent', late],
    ['short', shots.filter(isWarm)],
  ] as const;
  return colourNames.flatMap((colour) =>
    looks.flatMap(([defect, of]) => {
      const own = of.filter((shot) => shot.colour === colour);
      const others = of.filter((shot) => shot.colour !== colour);
      const isOdd = isDifferent(difference(own, others, defect, colourConf));
      return isOdd ? [`${colour} ${defect}`] : [];
    }),
  );
}

/** Every defect of warm shots that one injector gives more often than the other. */
export function injectorDifferences(shots: readonly DemoShot[]): string[] {
  const of = (key: keyof typeof injectors) =>
    shots.filter((shot) => isWarm(shot) && shot.injector === injectors[key].name);
  const { worse, better } = truths.injector;
  return watched.flatMap((defect) => {
    const found = difference(of(worse), of(better), defect, injectorConf);
    return isDifferent(found) ? [`${defect} ${found[0] > 0 ? 'more' : 'less'}`] : [];
  });
}

/** What warm shorts go with: the injector, and the heat of the pot. */
export function shortDrivers(shots: readonly DemoShot[]): Drivers {
  const warm = shots.filter(isWarm);
  const counts = together(warm.flatMap((shot) => countsBySession([shot], 'short')));
  const worse: string = injectors[truths.injector.worse].name;
  return drivers({
    ...counts,
    session: warm.map(({ session }) => session),
    factors: [
      {
        values: warm.map(({ injector }) => (injector === worse ? 1 : 0)),
        isPerSession: true,
        step: 1,
      },
      { values: warm.map(({ heat }) => heat), isPerSession: false, step: 1 },
    ],
  });
}

/** Share of a defect in some shots less that in others, each on its count divided by its D. */
function difference(
  a: readonly DemoShot[],
  b: readonly DemoShot[],
  defect: Defect,
  conf: number,
): Difference {
  const [one, other] = [sideOf(a, defect), sideOf(b, defect)];
  return newcombe(one.bad, one.of, other.bad, other.of, one.effect, other.effect, conf);
}

function sideOf(shots: readonly DemoShot[], defect: Defect) {
  const sessions = countsBySession(shots, defect);
  const { x, n } = together(sessions);
  return { bad: total(x), of: total(n), effect: effectAcross(sessions) };
}

function isDifferent([, lo, hi]: Difference): boolean {
  return lo > 0 || hi < 0;
}

function warmShorts(shots: readonly DemoShot[]) {
  return countsBySession(shots.filter(isWarm), 'short');
}

function isWarm({ isCold }: DemoShot): boolean {
  return !isCold;
}

/** Opened well before the mould's usual time, by the median of all its openings. */
function earlyOf(shots: readonly DemoShot[]): (shot: DemoShot) => boolean {
  const usualSec = new Map(
    mouldNames.map((mould) => {
      const times = shots.flatMap((shot) =>
        shot.mould === mould && shot.openSec > 0 ? [shot.openSec] : [],
      );
      return [mould, times.sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0];
    }),
  );
  return ({ mould, openSec }) => openSec < earlyBelow * (usualSec.get(mould) ?? 0);
}
