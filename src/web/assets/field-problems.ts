/** Shows in the forms of this page what is wrong with their fields, as a page that was asked for says it. */
export function showFieldProblems(fresh: Document): void {
  for (const field of document.querySelectorAll<HTMLElement>('form[data-redraw] .field')) {
    const input = field.querySelector<HTMLElement>('input, select');
    const told = input === null ? null : fresh.getElementById(input.id);
    if (input === null || told === null) continue;
    for (const name of ['aria-invalid', 'aria-describedby']) {
      const value = told.getAttribute(name);
      if (value === null) input.removeAttribute(name);
      else input.setAttribute(name, value);
    }
    field.querySelector('.problem')?.remove();
    const problem = told.closest('.field')?.querySelector('.problem');
    if (problem !== null && problem !== undefined) field.append(problem);
  }
}
