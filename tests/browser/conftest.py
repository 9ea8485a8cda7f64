"""Chromium on the product with the invented shop. Without Chromium these tests are skipped, and the totals say so."""

import shutil

import pytest
from playwright.sync_api import sync_playwright

from engines.scenario.passwords import DEMO_PASSWORD
from shopfloor.setup.missing import BROWSERS
from tests.running_product import Product

QUIET = ["--no-sandbox", "--disable-quic", "--disable-background-networking", "--disable-component-update", "--disable-sync"]


@pytest.fixture(scope="session")
def chromium():
    path = next(filter(None, map(shutil.which, BROWSERS)), None)
    if path is None:
        pytest.skip("NO CHROMIUM: nothing was looked at in a browser. Run: sudo apt-get install chromium")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=QUIET)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def product(chromium, tmp_path_factory):
    product = Product(tmp_path_factory.mktemp("product"), scenario=True)
    yield product
    product.end()


@pytest.fixture
def open_page(chromium, product):
    """Pages of their own, as many as there are hands; a script or style that the policy refused, or an error of a script,
    fails the test."""
    contexts, faults = [], []

    def open_one(width=1280, height=800):
        contexts.append(
            chromium.new_context(base_url=product.address, accept_downloads=True, viewport={"width": width, "height": height})
        )
        page = contexts[-1].new_page()
        page.on("console", lambda message: faults.append(message.text) if _is_fault(message, page) else None)
        page.on("pageerror", lambda error: faults.append(str(error)))
        return page

    yield open_one
    for context in contexts:
        context.close()
    assert faults == []


@pytest.fixture
def page(open_page):
    return open_page()


def _is_fault(message, page):
    """Chromium also reports the status of a refusal that is shown as a page."""
    return message.type == "error" and message.location["url"] != page.url


@pytest.fixture
def signed_in(page):
    return lambda username: sign_in(page, username)


@pytest.fixture
def at_a_tablet(open_page):
    """Somebody signed in at a tablet of their own."""
    return lambda username: sign_in(open_page(1024, 768), username)


def sign_in(page, username):
    page.goto("/")
    page.get_by_label("name").first.fill(username)
    page.get_by_label("password").fill(DEMO_PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/")
    return page
