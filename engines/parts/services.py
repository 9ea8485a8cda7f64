from engines.parts.models import Engine, Fitment, Item


def add_item(*, part_number, name, serial="", mark="", tracking, quantity=1, customer=None, origin, by, at):
    return Item.objects.create(
        part_number=part_number,
        name=name,
        serial=serial,
        mark=mark,
        tracking=tracking,
        quantity=quantity,
        customer=customer,
        origin=origin,
        known_at=at,
        added_by=by,
    )


def add_engine(*, model, serial, customer, by, at):
    item = add_item(
        part_number=model.code, name=model.name, serial=serial, tracking="serial", customer=customer, origin="x", by=by, at=at
    )
    return Engine.objects.create(item=item, model=model, customer=customer)


def fit_item(*, item, root, line, place, fitted_at, by, at):
    return Fitment.objects.create(item=item, root=root, line=line, place=place, fitted_at=fitted_at)


def scrap_item(*, item, reason, by, at):
    item.scrapped_at, item.scrapped_by, item.scrapped_reason = at, by, reason
    item.save()


def book_evidence(**kwargs):
    pass
