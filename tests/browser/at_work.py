"""What everybody does on the pages: find an engine, an area, an operation; enter, sign, accept."""

from engines.scenario.passwords import DEMO_PASSWORD


def press(page, name):
    page.get_by_role("button", name=name, exact=True).click()


def shown(page):
    return page.get_by_role("main").inner_text()


def to_engine(page, serial):
    page.goto("/board/")
    page.get_by_role("link", name=serial).click()


def to_area(page, serial, area):
    to_engine(page, serial)
    page.get_by_role("link", name=area, exact=True).click()


def to_operation(page, serial, area, title):
    to_area(page, serial, area)
    page.get_by_role("heading", name=area, exact=True, level=1).wait_for()
    for over in page.locator(".stage details").all():
        over.locator("summary").click()
    page.get_by_role("link", name=title, exact=True).click()


def move_on(page, serial, area, stage):
    to_area(page, serial, area)
    press(page, f"Move on to {stage}")
    assert f"{area} stands in {stage}" in shown(page)


def sign(page):
    page.get_by_label("Your password again").fill(DEMO_PASSWORD)
    press(page, "Sign")
    page.get_by_text("Signed.", exact=True).wait_for()


def accept(page):
    page.get_by_label("Your password again").fill(DEMO_PASSWORD)
    press(page, "Accept this hold point")
    page.get_by_text("accepted by Inspector").wait_for()


def choose(page, label, beginning):
    """The option that begins with these words."""
    field = page.get_by_label(label)
    field.select_option(next(each for each in field.locator("option").all_text_contents() if each.startswith(beginning)))


def keep(page):
    press(page, "Keep it")


def tap(page, number):
    """A fastener on the numbered picture."""
    page.get_by_role("group", name="Fasteners of the joint").locator(f'input[value="{number}"]').check()
