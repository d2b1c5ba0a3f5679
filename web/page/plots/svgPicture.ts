/** What a style sheet gives to a drawing: written into it, so that it looks the same elsewhere. */
const KEPT_STYLES = [
  'fill',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linejoin',
  'stroke-linecap',
  'opacity',
  'paint-order',
  'font-size',
  'font-weight',
  'text-anchor',
] as const;

const SVG = 'http://www.w3.org/2000/svg';
const TITLE_PX = 32;
const LEGEND_PX = 24;
const PAD_PX = 16;
const FONT = "'Source Sans 3', 'Segoe UI', sans-serif";

/** A legend's entry: its swatch, which is a drawing of its own, and its words. */
type LegendEntry = { readonly swatch: SVGSVGElement; readonly words: string };

function withStyles(element: Element): Element {
  const copy = element.cloneNode(true);
  if (!(copy instanceof Element)) throw new TypeError('a drawing was expected');
  const [from, to] = [
    [element, ...element.querySelectorAll('*')],
    [copy, ...copy.querySelectorAll('*')],
  ];
  for (const [index, original] of from.entries()) {
    const style = getComputedStyle(original);
    for (const name of KEPT_STYLES) to[index]?.setAttribute(name, style.getPropertyValue(name));
    to[index]?.removeAttribute('class');
  }
  return copy;
}

function text(words: string, x: number, y: number, color: string, weight: number): SVGTextElement {
  const element = document.createElementNS(SVG, 'text');
  element.textContent = words;
  for (const [name, value] of Object.entries({ x, y, fill: color, 'font-size': '14px', 'font-weight': weight })) {
    element.setAttribute(name, String(value));
  }
  return element;
}

function placed(child: Element, x: number, y: number): SVGGElement {
  const group = document.createElementNS(SVG, 'g');
  group.setAttribute('transform', `translate(${x},${y})`);
  group.append(child);
  return group;
}

/**
 * A drawing of the page as a file of its own, with its title and its legend, as it is seen now.
 *
 * @param drawing - as it stands on the page [-]
 * @param title - above it [-]
 * @param legend - below it, a line each [-]
 * @returns SVG [-]
 */
export function svgPicture(drawing: SVGSVGElement, title: string, legend: readonly LegendEntry[]): string {
  const page = getComputedStyle(document.body);
  const [width, height] = [drawing.width.baseVal.value, drawing.height.baseVal.value];
  const whole = document.createElementNS(SVG, 'svg');
  const fullHeight = TITLE_PX + height + LEGEND_PX * legend.length + 2 * PAD_PX;
  for (const [name, value] of Object.entries({
    xmlns: SVG,
    width: width + 2 * PAD_PX,
    height: fullHeight,
    viewBox: `0 0 ${width + 2 * PAD_PX} ${fullHeight}`,
    'font-family': FONT,
  })) {
    whole.setAttribute(name, String(value));
  }
  const paper = document.createElementNS(SVG, 'rect');
  paper.setAttribute('width', '100%');
  paper.setAttribute('height', '100%');
  paper.setAttribute('fill', page.backgroundColor);
  whole.append(paper, text(title, PAD_PX, PAD_PX + 14, page.color, 600));
  whole.append(placed(withStyles(drawing), PAD_PX, PAD_PX + TITLE_PX));
  for (const [index, { swatch, words }] of legend.entries()) {
    const top = PAD_PX + TITLE_PX + height + LEGEND_PX * index + 4;
    whole.append(placed(withStyles(swatch), PAD_PX, top), text(words, PAD_PX + 48, top + 13, page.color, 400));
  }
  return new XMLSerializer().serializeToString(whole);
}
