/** One thing in an answer that the plan does not bear out, by the name of the rule it breaks. */
export interface Violation {
  rule: string;
  where: string;
  says: string;
}

export type Accuse = (rule: string, where: string, says: string) => void;
