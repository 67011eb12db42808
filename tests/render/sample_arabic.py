"""What the Arabic sample says outside its sections: the shell's messages, the date and the mark of a draft."""

from __future__ import annotations

DRAFT = "هذه الترجمة مسودة. لم يراجعها شخص مؤهل بعد. اسألنا إن كان شيء غير واضح."
DATE = "20 نوفمبر 2026"
SHELL = {
    "Order %(number)s": "الطلب %(number)s",
    "of %(date)s": "بتاريخ %(date)s",
    "Version %(version)s": "الإصدار %(version)s",
    "Page %(page)s of %(pages)s": "صفحة %(page)s من %(pages)s",
    "Phone %(phone)s": "الهاتف %(phone)s",
    "E-mail %(email)s": "البريد %(email)s",
    "For %(name)s": "إلى %(name)s",
    "Check word %(word)s": "كلمة التحقق %(word)s",
    "You can have this leaflet in large print. Ask us.": "يتوفر هذا المنشور بخط كبير. اسألنا.",
}
