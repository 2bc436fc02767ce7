import { calibrate, mouldHeat, mouldTempC } from '#calc/heat.ts';
import { test } from 'vitest';
test('lab', () => {
  let seed = 7; const rnd = () => ((seed = (seed * 16807) % 2147483647) / 2147483647);
  let bad = 0; let worst = 0; let t = 0;
  for (let k = 0; k < 300; k++) {
    const heat = mouldHeat({ massKg: 1 + 3 * rnd() });
    const shots = Array.from({ length: 1 + Math.floor(rnd() * 20) }, () => ({ at: Math.floor(rnd() * 7e6), volumeMl: 30 + 90 * rnd(), pourC: 160 + 10 * rnd() }));
    const course = { ambientC: 15 + 15 * rnd(), shots };
    const readings = Array.from({ length: 1 + Math.floor(rnd() * 10) }, () => ({ at: Math.floor(rnd() * 1e7), tempC: k % 2 ? 15 + 100 * rnd() : 500 * rnd() }));
    const cost = (l: number, u: number) => ((l - Math.log(heat.tauSec)) / 0.45) ** 2 + ((u - 0.9) / 0.15) ** 2 +
      readings.reduce((s, r) => s + (mouldTempC({ ...heat, tauSec: Math.exp(l), uptake: u }, course, r.at - 1e-3) - r.tempC) ** 2, 0);
    const t0 = process.hrtime.bigint();
    const f = calibrate(heat, course, readings);
    t += Number(process.hrtime.bigint() - t0) / 1e6;
    const found = cost(Math.log(f.tauSec), f.uptake);
    let best = Infinity; let at: number[] = [];
    for (let i = 0; i <= 60; i++) for (let j = 0; j <= 50; j++) {
      const l = Math.log(heat.tauSec) - 2.7 + (5.4 * i) / 60; const u = 0.05 + (1.95 * j) / 50;
      const c = cost(l, u); if (c < best) { best = c; at = [Math.exp(l), u]; }
    }
    if (best < found * (1 - 1e-6)) { bad++; worst = Math.max(worst, found / best); console.log(k, found, best, f.tauSec, f.uptake, at, heat.tauSec); }
  }
  console.log({ bad, worst, meanMs: t / 300 });
}, 120000);
