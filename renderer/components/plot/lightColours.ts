/** The window's colours by the names of their variables, as its own style sheets give them for the light scheme. */
export function lightColours(): ReadonlyMap<string, string> {
  const colours = new Map<string, string>();
  for (const sheet of document.styleSheets)
    for (const rule of sheet.cssRules) {
      if (!(rule instanceof CSSStyleRule) || !rule.selectorText.includes('light')) continue;
      for (const name of rule.style) if (name.startsWith('--bw-')) colours.set(name, rule.style.getPropertyValue(name));
    }
  if (colours.size === 0) throw new Error('The colours of the light scheme were not found in the page’s styles.');
  return colours;
}
