// Small words of the pages that the server does not make: dates as people say
// them.

const months = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'];

// day writes 2027-05-22 as "22 May 2027"; what is no date stays as it is.
export function day(date: string): string {
  const m = /^(\d{4})-(\d\d)-(\d\d)/.exec(date);
  return m ? `${Number(m[3])} ${months[Number(m[2]) - 1] ?? m[2]} ${m[1]}` : date;
}

export const count = (n: number, one: string, many = one + 's'): string => `${n} ${n === 1 ? one : many}`;

export const capital = (t: string): string => t.charAt(0).toUpperCase() + t.slice(1);
