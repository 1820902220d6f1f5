// Run in each page of the crawl: what it links to, what it offers to link to, and what cannot be seen or hit.
() => {
  const seen = (element) => element.getClientRects().length > 0 && getComputedStyle(element).visibility !== "hidden";
  const name = (element) => `${element.tagName.toLowerCase()}.${element.className.baseVal ?? element.className} '${element.textContent.trim().slice(0, 40)}'`;
  const all = (selector) => [...document.querySelectorAll(selector)];
  const width = document.documentElement.clientWidth;
  const out = (element) => {
    const box = element.getBoundingClientRect();
    return box.left < 0 || box.right > width + 0.5 || box.width === 0;
  };
  // a link is in running text when its line has other words beside it; such a link is as small as its line
  const alone = (link) => {
    const block = link.closest("p, li, dd, dt, td, th, nav, figcaption, caption, div");
    return !block || getComputedStyle(link).display !== "inline" || block.textContent.trim() === link.textContent.trim();
  };
  const small = (element) => {
    const box = element.getBoundingClientRect();
    return box.height < 47.5 || box.width < 47.5;
  };
  // WCAG 2.2, 1.4.6: relative luminance and contrast
  const canvas = new OffscreenCanvas(1, 1).getContext("2d", { willReadFrequently: true });
  const colours = new Map();
  const rgba = (text) => {
    if (!colours.has(text)) {
      canvas.clearRect(0, 0, 1, 1);
      canvas.fillStyle = text;
      canvas.fillRect(0, 0, 1, 1);
      colours.set(text, [...canvas.getImageData(0, 0, 1, 1).data]);
    }
    return colours.get(text);
  };
  const light = (text) => {
    const [r, g, b] = rgba(text).map((c) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const grounds = new Map();
  const ground = (element) => {
    if (!element) { return "white"; }
    if (!grounds.has(element)) {
      const colour = getComputedStyle(element).backgroundColor;
      grounds.set(element, rgba(colour)[3] === 255 ? colour : ground(element.parentElement));
    }
    return grounds.get(element);
  };
  // a number of a drawing stands on the dot before it, unless that lies elsewhere
  const dotUnder = (element) => {
    const dot = element.previousElementSibling;
    if (dot?.tagName !== "circle") { return null; }
    const [text, round] = [element.getBoundingClientRect(), dot.getBoundingClientRect()];
    const middle = (box) => [box.left + box.width / 2, box.top + box.height / 2];
    const [[x, y], [cx, cy]] = [middle(text), middle(round)];
    return Math.hypot(x - cx, y - cy) < (round.width + text.height) / 2 ? getComputedStyle(dot).fill : null;
  };
  const contrast = (element) => {
    const style = getComputedStyle(element);
    const dot = dotUnder(element);
    const [one, other] = [light(element.namespaceURI.endsWith("svg") ? style.fill : style.color), light(dot ?? ground(element))];
    return (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
  };
  const written = () => {
    const found = new Set();
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const element = walker.currentNode.parentElement;
      if (walker.currentNode.data.trim() && !element.closest("script, template") && seen(element)) { found.add(element); }
    }
    return [...found];
  };
  const texts = written();
  return {
    texts: texts.length,
    faint: texts.filter((element) => contrast(element) < 7).map((element) => `${contrast(element).toFixed(2)} ${name(element)}`),
    title: document.title,
    links: all("a[href], link[href]").map((element) => element.href),
    sources: all("script[src], img[src], iframe[src], object[data]").map((element) => element.src || element.data),
    symbols: all("use").map((element) => element.getAttribute("href")).filter((href) => !href.startsWith("#") || !document.getElementById(href.slice(1))),
    ids: all("[id]").map((element) => element.id),
    styled: all("[style]").map(name),
    hidden: all(".plate").filter((element) => seen(element) && out(element)).map(name),
    clipped: all(".plate").filter((element) => element.scrollWidth > element.clientWidth + 1).map(name),
    small: [...all("button, input:not([type=hidden]), select, textarea, summary"), ...all("a[href]").filter(alone)].filter((element) => seen(element) && small(element)).map(name),
    wide: document.documentElement.scrollWidth > width ? [`${document.documentElement.scrollWidth} px`] : [],
    verdicts: all(".plate").length,
    policy: window.handbookPolicy,
  };
}
