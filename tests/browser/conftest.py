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
def page(chromium, product):
    """A page of its own; a script or style that the policy refused, or an error of a script, fails the test."""
    context = chromium.new_context(base_url=product.address, accept_downloads=True, viewport={"width": 1280, "height": 800})
    page, faults = context.new_page(), []
    page.on("console", lambda message: faults.append(message.text) if _is_fault(message, page) else None)
    page.on("pageerror", lambda error: faults.append(str(error)))
    yield page
    context.close()
    assert faults == []


def _is_fault(message, page):
    """Chromium also reports the status of a refusal that is shown as a page."""
    return message.type == "error" and message.location["url"] != page.url


@pytest.fixture
def signed_in(page):
    def sign_in(username):
        page.goto("/")
        page.get_by_label("name").first.fill(username)
        page.get_by_label("password").fill(DEMO_PASSWORD)
        page.get_by_role("button", name="Sign in").click()
        page.wait_for_url("**/")
        return page

    return sign_in
