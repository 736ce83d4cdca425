"""Shopping and pantry: typed by keys, worked out at each of them."""

import pdfplumber
import pytest
import shiboken6
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtPrintSupport import QPrintPreviewDialog
from PySide6.QtTest import QTest

from tests.plan.test_shopping import PANTRY, stock
from tests.window.test_reachable import cut_off, nameless
from winebench.model.edits import Change, DropLine, PutLine
from winebench.model.recipe import AdditiveLine
from winebench.units import Amount
from winebench.window.batch.pantry_row import NOT_OWN
from winebench.window.batch.shopping import ShoppingDialog

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def opened(window):
    action = next(each for menu in window.menuBar().actions() for each in menu.menu().actions()
                  if "pantry" in each.text())  # fmt: skip
    action.trigger()
    dialog = window.findChildren(ShoppingDialog)[-1]
    assert dialog.isVisible()
    return dialog


@pytest.fixture
def dialog(qtbot, damson):
    made = opened(damson)
    yield made
    if shiboken6.isValid(made):
        made.reject()


def stocked(window, *pantry):
    window.document.edit(Change(label="pantry", fields={"pantry": pantry}))


def typed(dialog, what, name, text):
    field = dialog.rows[what, 0].fields[name]
    field.setFocus()
    QTest.keyClicks(field, text)
    return field


def test_every_key_counts_and_the_totals_follow(damson, dialog):
    sugar = dialog.rows["white-sugar", 0]
    assert sugar.need.text() == sugar.buy.text() == "6 lb 4 oz (2.83 kg)"
    typed(dialog, "white-sugar", "pack", "1 kg")
    assert (sugar.buy.text(), sugar.of.text()) == ("3 × 1 kg", "a pack")
    assert sugar.left.text() == "5 3/4 oz (165 g)"  # 3000 g less 6 1/4 lb, which are 2835 g
    typed(dialog, "white-sugar", "price", "1,20")
    assert sugar.cost.text() == "3.60"
    typed(dialog, "white-sugar", "have", "900 g")
    assert (sugar.buy.text(), sugar.cost.text()) == ("2 × 1 kg", "2.40")
    QTest.keyClicks(dialog.money, "EUR")
    assert sugar.cost.text() == "2.40 EUR"
    assert dialog.cost.text().startswith("To spend 2.40 EUR, of which 2.32 EUR goes into this wine")
    (item,) = damson.document.project.pantry
    assert item == stock("white-sugar", have="900 g", pack="1 kg", price="1,20")
    assert damson.document.project.money == "EUR"


def test_counted_things_take_a_bare_number(damson, dialog):
    field = typed(dialog, "bottles", "have", "12")
    assert field.text() == "12"
    assert damson.document.project.pantry[0].have == Amount("12 bottles")
    assert dialog.rows["bottles", 0].buy.text() == "9 bottles"
    typed(dialog, "corks", "pack", "30")
    assert dialog.rows["corks", 0].buy.text() == "1 × 30 corks"


def test_what_cannot_be_read_yet_is_kept_as_a_draft_with_its_reason(damson, dialog):
    field = typed(dialog, "white-sugar", "have", "900")
    assert dialog.refusal.text().startswith('White sugar, in stock: "900" has no unit')
    assert dialog.refusal.isVisible()
    draft = damson.document.project.drafts[-1]
    assert (draft.place, draft.text) == ("pantry:white-sugar:have", "900")
    assert damson.document.project.pantry == ()
    dialog.reject()
    again = opened(damson)
    assert again.rows["white-sugar", 0].fields["have"].text() == "900"
    field = again.rows["white-sugar", 0].fields["have"]
    QTest.keyClick(field, Qt.Key.Key_End)
    QTest.keyClicks(field, " g")
    assert field.text() == "900 g"
    assert not again.refusal.isVisible()
    assert all(each.place != draft.place for each in damson.document.project.drafts)
    again.reject()


def test_undo_and_redo_work_in_the_dialog_itself(damson, dialog):
    field = typed(dialog, "corks", "price", "6")
    QTest.keyClick(field, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert damson.document.project.pantry == ()
    assert field.text() == ""
    held = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    QTest.keyClick(field, Qt.Key.Key_Z, held)
    assert damson.document.project.pantry[0].price.value == 6.0
    assert field.text() == "6"


def test_an_entry_emptied_again_leaves_nothing_in_the_file(damson, dialog):
    field = typed(dialog, "corks", "price", "6")
    QTest.keyClick(field, Qt.Key.Key_Backspace)
    assert damson.document.project.pantry == ()


def test_enter_and_the_arrows_go_down_and_up_the_column(damson, dialog):
    first, second, *_ = dialog.rows.values()
    assert dialog.focusWidget() is first.fields["have"]
    QTest.keyClick(first.fields["have"], Qt.Key.Key_Return)
    assert dialog.focusWidget() is second.fields["have"]
    QTest.keyClick(second.fields["have"], Qt.Key.Key_Up)
    assert dialog.focusWidget() is first.fields["have"]
    assert dialog.isVisible(), "Enter closes nothing"
    enzyme, tablets = (dialog.rows[what, 0].fields["opened"]
                       for what in ("pectic-enzyme", "sulfite-tablet"))  # fmt: skip
    enzyme.setFocus()
    QTest.keyClick(enzyme, Qt.Key.Key_Down)
    assert dialog.focusWidget() is tablets, "rows between have no such field"


def test_a_day_without_a_year_is_a_past_one_and_old_sulfite_is_told(damson, dialog):
    row = dialog.rows["sulfite-tablet", 0]
    typed(dialog, "sulfite-tablet", "have", "60")
    typed(dialog, "sulfite-tablet", "opened", "20 Dec")  # it is 1 October 2026
    assert damson.document.project.pantry[0].opened.text == "20 Dec 2025"
    assert "until December 2026" in row.note.text()
    assert "past" not in row.note.text()
    row.fields["opened"].selectAll()
    QTest.keyClicks(row.fields["opened"], "2025-03-03")
    assert "until March 2026 (common practice). It is past that: buy fresh." in row.note.text()
    assert row.note.property("role") == "asking"
    # as the printed list says it, and nothing is left of what has no strength
    assert (row.buy.text(), row.left.text()) == ("fresh, 5 tablets", "")


def test_sorbate_in_stock_is_asked_when_it_was_opened(damson, dialog):
    damson.document.edit(PutLine(label="sorbate", line=AdditiveLine(
        id="sorbate", additive="potassium-sorbate", amount=Amount("1/2 tsp"))))  # fmt: skip
    typed(dialog, "potassium-sorbate", "have", "50 g")
    typed(dialog, "potassium-sorbate", "opened", "2024")
    row = dialog.rows["potassium-sorbate", 0]
    assert row.buy.text().startswith("fresh, ")
    assert "about a year" in row.note.text()
    assert "common practice" in row.note.text()


def test_a_sentence_is_no_money(damson, dialog):
    QTest.keyClicks(dialog.money, "the coins of my country")
    assert "names no money; write its sign" in dialog.refusal.text()
    assert dialog.refusal.isVisible()
    assert damson.document.project.money == ""  # not "the", which could be read on the way


def test_a_month_is_enough_for_when_a_pack_was_opened(damson, dialog):
    row = dialog.rows["pectic-enzyme", 0]
    typed(dialog, "pectic-enzyme", "have", "50 g")
    field = typed(dialog, "pectic-enzyme", "opened", "March 2024")
    assert not dialog.refusal.isVisible()
    assert damson.document.project.pantry[0].opened.text == "March 2024"
    assert "Opened about March 2024," in row.note.text()
    assert "reckoned as 1 March" in row.note.text()
    assert "It is past that" in row.note.text()  # two years: until March 2026
    field.selectAll()
    QTest.keyClicks(field, "2026")
    assert "Opened about 2026," in row.note.text()
    assert "past" not in row.note.text()
    field.selectAll()
    QTest.keyClicks(field, "2027")
    assert "still to come" in dialog.refusal.text()
    assert field.text() == "2027", "nothing typed is lost"


def test_a_price_by_the_pound_is_shown_as_typed_and_counted(damson, dialog):
    # The recipe's 6 1/4 lb of sugar at 0.80 a lb are 5.00.
    sugar = dialog.rows["white-sugar", 0]
    field = typed(dialog, "white-sugar", "price", "0.80 a lb")
    assert (field.text(), sugar.of.text(), sugar.cost.text()) == ("0.80 a lb", "", "5.00")
    typed(dialog, "white-sugar", "pack", "5 lb")  # two packs are 10 lb
    assert (sugar.buy.text(), sugar.cost.text()) == ("2 × 5 lb", "8.00")
    dialog.reject()
    again = opened(damson)
    assert again.rows["white-sugar", 0].fields["price"].text() == "0.80 a lb"
    again.reject()


def test_what_comes_later_has_rows_of_its_own(damson, dialog):
    later = dialog.rows["sulfite-tablet", NOT_OWN]
    assert later.need.text().startswith("at most ")
    assert later.note.text().startswith("Measure ")
    assert "“Stabilise”" in later.note.text()
    typed(dialog, "sulfite-tablet", "pack", "100")
    assert later.had.text() == "95 tablets left over"
    assert later.buy.text() == "nothing"
    fining = dialog.rows["fining", 0]
    typed(dialog, "fining", "have", "1")
    assert fining.buy.text() == "nothing"


def test_the_cleaner_is_suggested_and_may_be_left_out_and_put_back_by_keys(damson, dialog):
    # An ounce a gallon, five gallons: five ounces are 142 g.
    row = dialog.rows["cleaner", 0]
    assert row.need.text() == "5 oz (142 g)"
    assert row.act.text() == "Leave out"
    assert not dialog.rows["corks", 0].act.isVisible()
    row.act.setFocus()
    QTest.keyClick(row.act, Qt.Key.Key_Space)
    gone = dialog.rows["cleaner", 0]
    assert gone.need.text() == "left out of the list"
    assert list(dialog.rows)[-1] == ("cleaner", 0)
    assert dialog.focusWidget() in gone.widgets()
    QTest.keyClick(gone.act, Qt.Key.Key_Space)
    assert dialog.rows["cleaner", 0].need.text() == "5 oz (142 g)"
    assert damson.document.project.pantry == ()


def test_bottles_corks_and_labels_say_why_so_many(damson, dialog):
    assert "(16.1 L) of wine are left to bottle: 21 full" in dialog.rows["bottles", 0].note.text()
    assert dialog.rows["corks", 0].note.text().startswith("One a bottle and 3 to spare")
    assert "Labels: 21, one a bottle: 3 sheets (US Letter" in dialog.looks.text()


def test_what_the_recipe_lacks_is_said_and_not_bought_without_a_word(damson, dialog):
    damson.document.edit(DropLine(label="drop", id="enzyme"))
    assert ("pectic-enzyme", 0) not in dialog.rows
    assert "Pectic enzyme: not on this list. No pectic enzyme" in dialog.looks.text()


def test_stock_beside_the_list_is_shown_and_can_be_taken_out(damson, dialog):
    stocked(damson, stock("oak chips", have="50 g"), stock("corks", have="3 corks"),
            stock("corks", have="4 corks"))  # fmt: skip
    assert list(dialog.rows)[-2:] == [("oak chips", 0), ("corks", 1)]
    oak = dialog.rows["oak chips", 0]
    assert (oak.name.words, oak.need.text()) == ("Oak chips", "not for this batch")
    assert dialog.rows["corks", 1].need.text() == "counted above"
    assert dialog.rows["corks", 0].buy.text() == "17 corks"  # 24 less 3 and 4
    QTest.keyClick(oak.act, Qt.Key.Key_Space)
    assert ("oak chips", 0) not in dialog.rows
    assert [item.what for item in damson.document.project.pantry] == ["corks", "corks"]
    damson.document.undo()
    assert ("oak chips", 0) in dialog.rows


def test_the_copied_text_is_the_list(damson, dialog):
    stocked(damson, *PANTRY)
    copying = next(each for each in dialog.findChildren(type(dialog.rows["corks", 0].act))
                   if each.text() == "Copy as text")  # fmt: skip
    QTest.keyClick(copying, Qt.Key.Key_Space)
    words = QGuiApplication.clipboard().text()
    assert words.startswith("Shopping for ")
    assert "- Corks: 1 × 30 corks, 6.00;" in words
    assert "Copied" in dialog.copied.text()


def test_all_is_named_and_nothing_is_cut_off_on_a_small_laptop(qtbot, damson, dialog):
    stocked(damson, *PANTRY, stock("pectic-enzyme", have="2 tsp", opened="2024-03-01"))
    qtbot.wait(50)
    assert dialog.width() <= 1366
    assert dialog.height() <= 700
    assert nameless(dialog) == []
    assert cut_off(dialog) == []


def test_another_project_closes_the_sheet(damson, dialog):
    damson.document.replaced.emit()
    assert not dialog.isVisible()


def test_the_list_as_pdf_and_in_the_preview(qtbot, damson, tmp_path):
    stocked(damson, *PANTRY)
    path = tmp_path / "list.pdf"
    damson.printing.save_pdf("shopping", path)
    with pdfplumber.open(path) as pdf:
        assert "3 × 1 kg" in pdf.pages[0].extract_text()
    assert str(path) in damson.banner.sentence
    damson.printing.preview("shopping")
    preview = damson.findChild(QPrintPreviewDialog)
    assert preview.windowTitle() == "Preview of the shopping list"
    qtbot.wait(50)
    preview.reject()


def test_what_is_on_neither_list_is_put_into_the_pantry_by_keyboard(damson, dialog):
    QTest.keyClick(dialog, Qt.Key.Key_A, Qt.KeyboardModifier.AltModifier)
    assert dialog.focusWidget() is dialog.new
    QTest.keyClicks(dialog.new, "2 lb oak chips")
    assert damson.document.project.drafts[-1].text == "2 lb oak chips"  # kept until it is put in
    QTest.keyClick(dialog.new, Qt.Key.Key_Return)
    assert stock("oak chips", have="2 lb") in damson.document.project.pantry
    assert dialog.new.text() == ""
    row = dialog.rows["oak chips", 0]
    assert dialog.focusWidget() is row.fields["have"]
    assert row.fields["have"].text() == "2 lb"
    assert dialog.isVisible()
    QTest.keyClick(row.fields["have"], Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert damson.document.project.pantry == ()


def test_what_is_listed_already_gets_the_amount_in_its_own_row(damson, dialog):
    dialog.new.setFocus()
    QTest.keyClicks(dialog.new, "900 g white sugar")
    QTest.keyClick(dialog.new, Qt.Key.Key_Return)
    assert dialog.focusWidget() is dialog.rows["white-sugar", 0].fields["have"]
    assert dialog.rows["white-sugar", 0].fields["have"].text() == "900 g"
    dialog.new.setFocus()
    QTest.keyClick(dialog.new, Qt.Key.Key_Return)
    assert dialog.refusal.text() == "Write what there is, such as 5 lb white sugar."


def test_a_price_that_cannot_be_read_counts_nothing(damson, dialog):
    typed(dialog, "white-sugar", "price", "2.50")
    assert dialog.rows["white-sugar", 0].cost.text()
    typed(dialog, "white-sugar", "price", " a pail")
    assert dialog.rows["white-sugar", 0].cost.text() == ""
    assert dialog.refusal.text().endswith("Until it can be read it is not counted.")
