/** Choices with the present value among them, where it is none (any more): it is shown as what it is, not as another one. */
export function withPresent(
  choices: readonly { value: string; label: string }[],
  present: string | undefined,
  words: string,
): { value: string; label: string }[] {
  if (present === undefined || choices.some(({ value }) => value === present)) return [...choices];
  return [...choices, { value: present, label: `${present} (${words})` }];
}
