/** What every field of a form is told. */
export interface FieldProps<Value> {
  id: string;
  label: string;
  value: Value | undefined;
  error?: string | undefined;
  optional?: boolean;
  description?: string;
}

export function labelText({ label, optional = false }: { label: string; optional?: boolean }): string {
  return optional ? `${label}, optional` : label;
}
