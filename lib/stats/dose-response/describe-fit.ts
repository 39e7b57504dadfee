import { invertPositive } from '../optimise/linear';
import { type Minimum, withoutHeld } from '../optimise/minimise';
import type { CurveModel } from './curve-model';
import type { DoseCell } from './dose-cells';
import { noFit } from './no-fit';
import { fittedValues } from './search';
import type { DoseFit, Estimate, FittedCurve, NoFit } from './types';

/** Columns of the curvature nearer to dependent than this are: the errors would be rounding. */
const LEAST_PIVOT = 1e-11;

/** Parameters with errors from the curvature times `variance`; `singular` where it has no inverse. */
export function describeFit(
  model: CurveModel,
  cells: readonly DoseCell[][],
  { theta, curvature, atBound }: Minimum,
  {
    variance,
    ...quality
  }: { variance: number } & Pick<DoseFit, 'df' | 'residual' | 'residualDf' | 'lackOfFit'>,
): DoseFit | NoFit {
  const { size, fixed } = model;
  const inverse = invertPositive(withoutHeld(curvature, atBound), size, LEAST_PIVOT);
  if (inverse === null) {
    const message = 'the doses cannot tell the parameters apart. Add doses, or hold a limit at a number.';
    return noFit('singular', null, message);
  }
  const covariance = inverse.map((value, at) =>
    atBound[Math.floor(at / size)] || atBound[at % size] ? 0 : value * variance,
  );
  const estimate = (at: number): Estimate => ({
    value: theta[at]!,
    standardError: Math.sqrt(covariance[at * size + at]!),
    state: fixed[at] ? 'fixed' : atBound[at] ? 'at bound' : 'free',
  });
  const curves = cells.map((doses, curve): FittedCurve => {
    const logEd50 = estimate(2 * curve + 1);
    const ed50 = Math.exp(logEd50.value);
    return {
      slope: estimate(2 * curve),
      lower: estimate(size - 2),
      upper: estimate(size - 1),
      ed50: { ...logEd50, value: ed50, standardError: ed50 * logEd50.standardError },
      lowestDose: doses.find(({ dose }) => dose > 0)!.dose,
      highestDose: doses.at(-1)!.dose,
    };
  });
  return {
    kind: 'fit',
    shape: model.shape,
    curves,
    covariance,
    parameters: size,
    sigma: Math.sqrt(variance),
    fitted: fittedValues(model, theta),
    ...quality,
  };
}
