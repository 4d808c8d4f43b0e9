/** Elements by their name, attributes and what is in them; words are always text. */

type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

export function make<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Attributes = {},
  ...inside: readonly (Node | string)[]
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    element.setAttribute(key, value === true ? '' : String(value));
  }
  element.append(...inside);
  return element;
}

export function makeSvg(name: string, attributes: Attributes = {}, ...inside: readonly (Node | string)[]): SVGElement {
  const element = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes))
    if (value !== undefined && value !== false) element.setAttribute(key, value === true ? '' : String(value));
  element.append(...inside);
  return element;
}

export function button(label: string, press: () => void, attributes: Attributes = {}): HTMLButtonElement {
  const made = make('button', { type: 'button', ...attributes }, label);
  made.addEventListener('click', press);
  return made;
}

/** A choice of several, with words before it. */
export function chooser(label: string, id: string, choose: (value: string) => void) {
  const select = make('select', { id });
  select.addEventListener('change', () => choose(select.value));
  const whole = make('span', { class: 'choice' }, make('label', { for: id }, label), select);
  return {
    whole,
    /** Offers these; what is chosen stays if it is among them. */
    offer(entries: readonly { readonly value: string; readonly text: string }[], chosen: string): void {
      select.replaceChildren(...entries.map(({ value, text }) => make('option', { value }, text)));
      select.value = entries.some(({ value }) => value === chosen) ? chosen : (entries[0]?.value ?? '');
      select.disabled = entries.length < 2;
    },
    get value() {
      return select.value;
    },
    set value(value: string) {
      select.value = value;
    },
  };
}
