import { materials } from './materials.ts';
import { colourways, injectors, moulds } from './shop.ts';
import { truths, usual } from './truths.ts';

const begin = '<!-- planted: written by generate.mjs from truths.ts -->';
const end = '<!-- planted: end -->';

/** The README with its list of planted truths as truths.ts has them now. */
export function withTruths(readme: string): string {
  const [before, rest] = readme.split(begin);
  const after = rest?.split(end)[1];
  if (before === undefined || after === undefined) {
    throw new Error('demo/README.md has lost the marks around its planted truths.');
  }
  return `${before}${begin}\n${truthLines().join('\n')}\n${end}${after}`;
}

function truthLines(): string[] {
  const { vent, cold, early, injector, colourant, loss } = truths;
  const others = Object.entries(usual.others).map(
    ([defect, share]) => `${defect} ${percent(share)}`,
  );
  return [
    `1. **A vent.** Cavity ${vent.cavity} of ${moulds[vent.mould].facts.name} shorts by itself in ` +
      `${percent(vent.shortShare)} of its shots until week ${vent.openedInWeek}, where a note says ` +
      `"${vent.note}" and the mould's page has it among its changes. After that it runs as the others do.`,
    `2. **Cold first shots.** In aluminium, a shot that is poured less than ${cold.belowK} K above ` +
      `the shop shorts in ${percent(cold.shortShare)} of its cavities (a step ${cold.overK} K wide). ` +
      `The moulds are sized so that these are the first ${cold.firstShots} of a session. Silicone ` +
      `does not care.`,
    `3. **Opened early.** ${colourways[early.colourway].name} dents in ${percent(early.dentShare)} ` +
      `of its cavities when its mould was opened after ${percent(usual.earlyFrom)} to ` +
      `${percent(usual.earlyTo)} of the usual time, and like the others when it stayed shut. ` +
      `${percent(usual.earlyRounds)} of all rounds are opened that early, whatever the colour.`,
    `4. **An injector.** ${injectors[injector.worse].name} shorts in ` +
      `${percent(injector.shortShare)} of warm cavities, ${injectors[injector.better].name} in ` +
      `${percent(usual.shortShare)}. Both take turns at every line-up of moulds.`,
    `5. **A strong colourant.** ${materials[colourant.key].facts.name} is ${colourant.times} times as ` +
      `strong as its card says; the other colourants are as theirs. Every version of a mix has a drawn ` +
      `picture, and what is read off it is the true colour between the flakes with a camera's noise of ` +
      `${usual.cameraLab} in each of L*, a* and b*, beside what the app forecast from the pictures before.`,
    `6. **A loss.** Of a pot that is emptied and weighed, ${loss.potMl} mL are not to be found, and ` +
      `shots have taken ${percent(loss.share)} more than their cavities and sprue hold; one pot differs ` +
      `from the next by ${loss.sdMl} mL.`,
    '',
    `Nothing else is planted. Everywhere alike: short ${percent(usual.shortShare)}, dent ` +
      `${percent(usual.dentShare)}, ${others.join(', ')}. Cavities of one shot are alike by ` +
      `${usual.rho}. The moulds truly cool with ${percent(usual.tauTimes)} of the time constant that ` +
      `the app takes them for, and take up ${percent(usual.uptakeTimes)} of the heat.`,
  ];
}

function percent(share: number): string {
  return `${Math.round(share * 1_000) / 10} %`;
}
