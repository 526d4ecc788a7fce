/**
 * The formulas of a bolted joint as a page writes them, evaluated by mathjs with units attached: a second reading of each, that shares no
 * line with the program. A formula whose units do not come out as said is refused by mathjs itself.
 */
import { compile, type Unit } from 'mathjs';

type Value = number | Unit;

/** Name, formula and the unit it must come out in ('' for a plain number); in order, each may use what stands above it. */
const formulas = [
  ['tanLead', 'lead / (pi * dm)', ''],
  ['threadTorque', 'F * dm / 2 * (tanLead + f * sec(alpha)) / (1 - f * tanLead * sec(alpha))', 'N m'],
  ['bearingTorque', 'F * fc * dc / 2', 'N m'],
  ['screwTorque', 'threadTorque + bearingTorque', 'N m'],
  ['linearThread', 'F * (0.15915 * lead + 0.57735 * f * dm)', 'N m'],
  ['linearTorque', 'linearThread + bearingTorque', 'N m'],
  ['nutTorque', 'K * D * F', 'N m'],
  ['release', 'F * dm / 2 * (f * sec(alpha) - tanLead) / (1 + f * sec(alpha) * tanLead) + bearingTorque', 'N m'],
  ['screwEfficiency', 'F * lead / (2 * pi * screwTorque)', ''],
  ['screwNutFactor', 'screwTorque / (D * F)', ''],
  ['divided', '((1 - u) * F - loss) / (1 + s)', 'N'],
  ['multiplied', '(1 - u) * F * (1 - s) - loss', 'N'],
  ['greatest', '(1 + u) * F + gain', 'N'],
  ['tension', 'F / As', 'MPa'],
  ['d0', 'sqrt(4 * As / pi)', 'mm'],
  ['shearElastic', '16 * threadTorque / (pi * d0^3)', 'MPa'],
  ['shearPlastic', '12 * threadTorque / (pi * d0^3)', 'MPa'],
  ['equivalentElastic', 'sqrt(tension^2 + 3 * shearElastic^2)', 'MPa'],
  ['equivalentPlastic', 'sqrt(tension^2 + 3 * shearPlastic^2)', 'MPa'],
  ['yieldPreload', 'As * nu * Rp / sqrt(1 + 3 * (1.5 * (dm / d0) * (lead / (pi * dm) + 1.1547 * f))^2)', 'N'],
  ['stressPreload', 'nu * Rp * As', 'N'],
] as const;

export type FormulaName = (typeof formulas)[number][0];

const compiled = formulas.map(([name, text, unit]) => ({ name, code: compile(text), unit }));

/** Every formula's value in its unit, from quantities with theirs. */
export function jointByText(quantities: Record<string, Value>): Record<FormulaName, number> {
  const scope: Record<string, Value> = { ...quantities };
  const values = compiled.map(({ name, code, unit }) => {
    const value = code.evaluate(scope) as Value;
    scope[name] = value;
    if (typeof value === 'number') {
      if (unit !== '') throw new Error(`reference: ${name} has no unit`);
      return [name, value] as const;
    }
    return [name, value.toNumber(unit)] as const;
  });
  return Object.fromEntries(values) as Record<FormulaName, number>;
}
