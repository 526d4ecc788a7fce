/** The caution that stands wherever values could hurt someone; one wording for screen, print and text. */
export const cautionLead = 'Torque and lifting can hurt people.';

/** What follows the lead on paper, in full. */
export const cautionText =
  'These values support a qualified person’s decision. They do not replace the approved drawing, procedure, maker’s data or local code; where those differ, those govern. Verify before use; a licensed or certified person decides.';

/** What follows the lead where room is short. */
export const cautionShort =
  'These values support a qualified person’s decision; they do not replace the approved drawing, procedure, maker’s data or local code. Verify before use.';
