"""An invented leaflet in Arabic, shorter than the English one: the page from right to left."""

from __future__ import annotations

from render.sample_parts import aside, figure, n, table

DRAFT = "هذه الترجمة مسودة. لم يراجعها شخص مؤهل بعد. اسألنا إن كان شيء غير واضح."

DATE = "20 نوفمبر 2026"
SHELL = {
    "Order %(number)s": "الطلب %(number)s",
    "Version %(version)s": "الإصدار %(version)s",
    "Page %(page)s of %(pages)s": "صفحة %(page)s من %(pages)s",
    "Phone %(phone)s": "الهاتف %(phone)s",
    "E-mail %(email)s": "البريد %(email)s",
    "For <strong>%(name)s</strong>": "إلى <strong>%(name)s</strong>",
    "Order <strong>%(number)s</strong>": "الطلب <strong>%(number)s</strong>",
    "Check word <strong>%(word)s</strong>": "كلمة التحقق <strong>%(word)s</strong>",
    "You can have this leaflet in large print. Ask us.": "يتوفر هذا المنشور بخط كبير. اسألنا.",
}

LEAD = f"""
<h1>نظارتك الجديدة</h1>
<p class="main">صنعنا هذه النظارة حسب وصفتك. افحص ملاءمتها اليوم قبل أن تخرج بها.</p>
<div class="points">
<ul>
<li>عدستك <strong>اليمنى</strong> هي الأقوى.</li>
<li>يجب ألا تدور العدسات داخل الإطار.</li>
<li>تغمق العدسات في الشمس، وتبقى أفتح خلف زجاج السيارة.</li>
<li>نظفها بالماء وقطرة صابون، ثم جففها بقماش ناعم.</li>
</ul>
</div>
<div class="arrive">
<h2>عند فتح الطرد</h2>
<ul class="ticks">
<li>رقم الطلب على الطرد هو {n("LT-7306")}.</li>
<li>العدستان ثابتتان بلا شق.</li>
<li>الإطار مستوٍ ولا ينزلق.</li>
</ul>
<p>هل بقي مربع فارغ؟ اتصل بنا: {n("01632 960 417")}.</p>
</div>
"""

URGENT = f"""
<h2>اطلب المساعدة اليوم</h2>
<p>لا تنتظر حتى تعتاد عيناك. تصرف فورًا إذا بدأ أحد هذه الأعراض فجأة:</p>
<ul>
<li>فقدت بعض بصرك أو كله.</li>
<li>رأيت ومضات أو نقاطًا كثيرة جديدة.</li>
<li>تحرك ظل أو ستارة على بصرك.</li>
<li>رأيت الأشياء مزدوجة حتى بعد خلع النظارة.</li>
</ul>
<p><strong>اتصل بطبيب عيون اليوم، أو بالرقم {n("111")}.</strong> لا تنسب هذه الأعراض إلى نظارتك الجديدة.</p>
"""

NUMBERS = f"""
<h2>أرقامك</h2>
{table("ما استلمناه وما صنعناه", ("", "اليمنى، مستلمة", "اليمنى، مصنوعة", "اليسرى، مستلمة", "اليسرى، مصنوعة"), (
    ("الكرة", "−4.75 D", "−4.75 D", "−3.25 D", "−3.25 D"), ("الأسطوانة", "−1.50 D", "−1.50 D", "+0.75 D", "+0.75 D"),
    ("المحور", "163°", "163°", "21°", "21°")))}
<p class="term"><strong>الكرة</strong> هي القوة الرئيسية للعدسة. نعدها بالديوبتر بخطوات قدرها {n("0.25 D")}.</p>
<ul>
<li><strong>العين اليمنى:</strong> {n("−4.75 D")} تقع تحت الصفر بعدد {n("19")} خطوة.</li>
<li><strong>العين اليسرى:</strong> {n("−3.25 D")} تقع تحت الصفر بعدد {n("13")} خطوة.</li>
</ul>
<p class="unknown">هذه القيم محسوبة ولم نقسها.</p>
"""

DIRECTION = f"""
<h2>لماذا يجب ألا تدور العدسة</h2>
<p><strong>المحور</strong> هو اتجاه الأسطوانة بالدرجات. {n("180°")} أفقي و{n("90°")} رأسي.</p>
{figure("dial", 87, 46, "قرص العينين كما يراهما من يقف أمامك. اليمنى عند 163 درجة واليسرى عند 21 درجة.",
        "مرسوم كما يراك من يقف أمامك. عينك اليمنى على يسار الصورة.",
        [(21, 43.6, "العين اليمنى", "middle"), (66, 43.6, "العين اليسرى", "middle"),
         (21, 3, "90°", "middle"), (66, 3, "90°", "middle")])}
<p>الإطار يثبت كل عدسة عند محورها. العدسة التي تدور تشوش الصورة بمقدار يصل إلى {n("0.52 D")}.</p>
"""

CAUTIONS = "<h2>تنبيهات</h2>" + "".join((
    aside("WARNING", "لا تقد السيارة عند الغسق أو ليلًا والعدسات غامقة.", "العدسات الغامقة تخفي الناس والسيارات.",
          "انتظر حتى تصفو أو بدل النظارة."),
    aside("CAUTION", "هذه نظارة عادية وليست واقية.", "قد تكسرها أداة أو كرة وتؤذي عينك.", "استعمل واقي عين معتمدًا."),
)) + '<div class="source" lang="en" dir="ltr"><h3>Cautions</h3><p>Do not drive at dusk or at night while the lenses are tinted.</p></div>'

SECTIONS = (
    ("numbers", "half", NUMBERS),
    ("direction", "half", DIRECTION),
    ("cautions", "half", CAUTIONS),
)
