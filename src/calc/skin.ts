import { contactC } from '#calc/conduction.ts';
import { density, specificHeat } from '#calc/mould-size.ts';
import type { Material } from '#model/mould.ts';

/** Conductivity, W/mK: data sheet of aluminium 6061; silicone and plaster from memory. */
const conductivity: Record<Material, number> = { aluminium: 167, silicone: 0.2, stone: 0.5 };

/** Hot plastisol, of 0.15 W/mK (flexible PVC), 1050 kg/m3 and 1800 J/kgK (from memory). */
const plastisol = { k: 0.15, rho: 1_050, cp: 1_800 };

/** How warm the skin of a bait is the moment it touches a mould as cold as the shop, °C. */
export function skinC(material: Material, pourC: number, shopC: number): number {
  const body = { k: conductivity[material], rho: density(material), cp: specificHeat(material) };
  return contactC({ tempC: pourC, ...plastisol }, { tempC: shopC, ...body });
}
