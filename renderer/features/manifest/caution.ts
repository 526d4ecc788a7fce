/** On every page, before anything that is computed. */
export const cautionLead = 'Torque and lifting can hurt people.';
export const cautionText =
  'These values support a qualified person’s decision. They do not replace the approved drawing, procedure, maker’s data or local code; where those differ, those govern. Verify before use; a licensed or certified person decides.';
