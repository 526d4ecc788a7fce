import { placeAddress } from '../../store/place.ts';

/** What a later sheet shows while the task has no step that could be planned. */
export function NoSteps() {
  return (
    <>
      <h1>This task has no steps yet</h1>
      <p>
        <a href={placeAddress({ at: 'steps' })}>Add its steps</a> first: what is done, on which outing and by whom.
      </p>
    </>
  );
}
