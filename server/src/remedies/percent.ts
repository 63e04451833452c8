/** A share as text in whole percent, for a message in which the last digits say nothing. */
export function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}
