"""A rider with a keyboard only: every press is followed by a look at where the focus is and whether it can be seen."""

from dataclasses import dataclass, field

from playwright.sync_api import Page

FOCUSED = """() => {
  const element = document.activeElement;
  if (!element || element === document.body) { return null; }
  const box = element.getBoundingClientRect(), style = getComputedStyle(element);
  // with the label of a field; a link of one word among many is told by its address too
  const label = element.labels && element.labels.length ? element.labels[0].textContent : "";
  return {
    words: (element.getAttribute("aria-label") || label || element.textContent).replace(/\\s+/g, " ").trim(),
    href: element.getAttribute("href") || "",
    id: element.id || element.closest("[id]")?.id || "",
    tag: element.tagName.toLowerCase(),
    outlined: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2,
    inside: box.width > 1 && box.height > 1 && box.bottom > 0 && box.right > 0 && box.top < innerHeight && box.left < innerWidth,
  };
}"""


@dataclass
class Focus:
    words: str
    href: str
    id: str
    tag: str
    outlined: bool
    inside: bool


@dataclass
class Keys:
    """`page` is never touched by a pointer."""

    page: Page
    log: list[str] = field(default_factory=list)

    def press(self, key: str) -> Focus | None:
        """The focus after a key; nothing where it is on the page as a whole."""
        self.page.keyboard.press(key)
        found = self.page.evaluate(FOCUSED)
        if found is None:
            return None
        focus = Focus(**found)
        self.log.append(f"{key}: {focus.tag} '{focus.words[:40]}'")
        if focus.id != "content" or focus.tag != "div":  # where the skip link leads: a place, not a control
            assert focus.outlined, f"no outline: {self.log[-1]}"
        assert focus.inside, f"out of view: {self.log[-1]}"
        return focus

    def tab_to(self, words: str = "", href: str = "", tag: str = "", most: int = 150) -> Focus:
        """Tab until a control of these words, this end of its address, this tag."""
        for _ in range(most):
            focus = self.press("Tab")
            if focus and words in focus.words and focus.href.endswith(href) and tag in focus.tag:
                return focus
        raise AssertionError(f"not reached in {most}: {words} {href} {tag}; {self.log[-5:]}")

    def follow(self, words: str = "", href: str = "", most: int = 150) -> None:
        self.tab_to(words, href, "a", most)
        with self.page.expect_navigation():
            self.page.keyboard.press("Enter")
