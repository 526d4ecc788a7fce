import { placeAddress } from '../../store/place.ts';

export interface StepLinkProps {
  /** Code of the step. */
  step: string;
  children: string;
}

/** To a step, on its sheet. */
export function StepLink({ step, children }: StepLinkProps) {
  return (
    <a className="bw-course-link" href={placeAddress({ at: 'steps', step })}>
      {children}
    </a>
  );
}
