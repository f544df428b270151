/** Why an entry cannot be used, in words that end with how to mend it. */
export interface Reason {
  readonly reason: string;
}

export function isReason(value: object | string | boolean | null): value is Reason {
  return typeof value === 'object' && value !== null && 'reason' in value;
}
