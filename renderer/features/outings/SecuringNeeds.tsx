import type { SecuringNeed } from '../../../shared-types/outing.ts';
import { StepLink } from './StepLink.tsx';

export interface SecuringNeedsProps {
  needs: readonly SecuringNeed[];
  stepWords: (code: string) => { number: number; name: string };
  planned: boolean;
}

/** Tether points and pouch places that each role needs at once, beside what its bags have. */
export function SecuringNeeds({ needs, stepWords, planned }: SecuringNeedsProps) {
  const cell = (need: { needed: number; available: number | null; step: string | null }) => {
    const has = !planned ? 'not known yet' : need.available === null ? 'not said' : String(need.available);
    const { step } = need;
    return (
      <td>
        {need.needed} needed, {has} there
        {step === null || need.needed === 0 ? null : (
          <>
            {' · most at '}
            <StepLink step={step}>{`step ${stepWords(step).number}`}</StepLink>
          </>
        )}
      </td>
    );
  };
  if (needs.length === 0) return null;
  return (
    <div className="bw-task-scroll" tabIndex={0} role="group" aria-label="Needs, scrolls sideways where narrow">
      <table className="bw-task-table">
        <caption className="bw-hidden">Tether points and pouch places that each role needs at once</caption>
        <thead>
          <tr>
            <th scope="col">Role</th>
            <th scope="col">Tether points at once</th>
            <th scope="col">Pouch places at once</th>
          </tr>
        </thead>
        <tbody>
          {needs.map(({ role, tethers, pouchPlaces }) => (
            <tr key={role}>
              <th scope="row">{role}</th>
              {cell(tethers)}
              {cell(pouchPlaces)}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
