/** A difference of temperature in the person's unit: 15 K are 15 °C or 27 °F. */
export function lineDegrees(kelvin: number, unit: 'C' | 'F'): string {
  return `${Math.round(unit === 'C' ? kelvin : kelvin * 1.8)} °${unit}`;
}
