/** One thing looked at before an outing's bags leave: what there is, what is needed. */
export interface IssueCheck {
  about: 'counting' | 'pieces' | 'limits' | 'calibration' | 'setting';
  what: string;
  have: string;
  need: string;
  /** `noted`: it is said, and keeps nothing back. */
  state: 'holds' | 'blocks' | 'noted';
  /** What would let the bags go, where words do not. */
  mend?: string;
  /** Where the need is from, if it is no count of the manifest. */
  source?: string;
  bag?: string;
  item?: string;
  /** Codes of the steps it is about. */
  steps?: readonly string[];
}
