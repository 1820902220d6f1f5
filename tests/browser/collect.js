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
  const small = (element) => {
    const box = element.getBoundingClientRect();
    return box.height < 47.5 || box.width < 47.5;
  };
  return {
    links: all("a[href], link[href]").map((element) => element.href),
    sources: all("script[src], img[src], iframe[src], object[data]").map((element) => element.src || element.data),
    symbols: all("use").map((element) => element.getAttribute("href")).filter((href) => !href.startsWith("#") || !document.getElementById(href.slice(1))),
    ids: all("[id]").map((element) => element.id),
    styled: all("[style]").map(name),
    hidden: all(".verdict, .verdict-box").filter((element) => seen(element) && out(element)).map(name),
    clipped: all(".verdict, .verdict-box").filter((element) => element.scrollWidth > element.clientWidth + 1).map(name),
    small: all("button, input:not([type=hidden]), select, .switch, .menu li a, .downloads a, summary").filter((element) => seen(element) && small(element)).map(name),
    wide: document.documentElement.scrollWidth > width ? [`${document.documentElement.scrollWidth} px`] : [],
    verdicts: all(".verdict, .verdict-box").length,
    policy: window.handbookPolicy,
  };
}
