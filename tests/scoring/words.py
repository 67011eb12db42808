"""What the checks look for in each language. Patterns are matched without regard to case."""

from __future__ import annotations

EYE = {
    "en": {"right": r"\bright\b", "left": r"\bleft\b"},
    "de": {"right": r"\brecht", "left": r"\blink"},
    "ar": {"right": r"اليمنى|يمنى", "left": r"اليسرى|يسرى"},
}
PART = {
    "en": {"sphere": "sphere", "cylinder": "cylinder", "axis": "axis", "add": r"\badd", "prism": "prism"},
    "de": {"sphere": "sphär", "cylinder": "zylinder", "axis": "achse", "add": r"\badd|nahzusatz", "prism": "prism"},
    "ar": {"sphere": "كروي", "cylinder": "أسطوان", "axis": "محور", "add": "إضافة", "prism": "منشور"},
}
DECIMAL = {"en": ".", "de": ",", "ar": "."}
# Signs of units, where a language writes them in its own letters.
UNITS = {"ar": {"mm": "مم", "cm": "سم", "nm": "نانومتر", "g": "غ", "m": "م", "°C": "°م"}}

# Over-claims: lists of the trade and of device law (no function that the device lacks); from common practice.
OVER_CLAIMS = {
    "en": r"unbreakable|shatter-?proof|scratch-?proof|bullet-?proof|100 ?%|safe to drive|safe for driving|guarantee"
    r"|\bcures?\b|\bheals?\b|prevents? (?:cataract|macular|eye disease|blindness|myopia)|eye ?strain relief"
    r"|protects? your eyes from|perfect vision|\bbest lens|fully protect|completely safe|you will get used",
    "de": r"unzerbrechlich|bruchsicher|kratzfest|100 ?%|sicher(?:es)? (?:zum )?fahren|garantie|heilt|beugt .{0,20} vor"
    r"|schützt ihre augen vor|perfekt(?:es)? sehen|völlig sicher",
    "ar": r"100 ?%|غير قابل للكسر",
}
BRAND_MARKS = r"[®™℠©]"

NOT_KNOWN = {
    "en": r"not known|do not know|know of no|no promise|may do better or worse|could not check|did not measure",
    "de": r"nicht bekannt|wissen wir nicht|kennen wir nicht|kein versprechen|besser oder schlechter|nicht gemessen"
    r"|nicht prüfen|kennen keine",
    "ar": r"غير معروف|لا نعرف|لا نعلم|لا يُعرف|أفضل أو أسوأ|ليس هذا وعدًا|لم نقس",
}
LARGE_PRINT = {"en": r"large print", "de": r"großdruck|große[rn]? schrift", "ar": r"خط(?:ًا)? كبير|أحرف كبيرة"}

SIGNS = {
    "en": {
        "loss of sight": r"lose (?:some|all|part|any|your)|loss of sight|cannot see",
        "flashes or floaters": r"flash",
        "shadow or curtain": r"shadow|curtain",
        "lasting double vision": r"double",
        "pain": r"\bhurts?\b|\bpain",
        "injury or splash": r"\bhit\b|splash|injur",
    },
    "de": {
        "loss of sight": r"(?:sehen|sicht|sehkraft|sehvermögen).{0,40}(?:verlier|nicht mehr)|verlieren|nichts mehr",
        "flashes or floaters": r"blitz",
        "shadow or curtain": r"schatten|vorhang",
        "lasting double vision": r"doppel",
        "pain": r"schmerz|tut .{0,20}weh|weh\b",
        "injury or splash": r"getroffen|schlag|spritz|verletz",
    },
    "ar": {
        "loss of sight": r"فقد",
        "flashes or floaters": r"ومض",
        "shadow or curtain": r"ظل|ستار",
        "lasting double vision": r"مزدوج|ازدواج",
        "pain": r"ألم|يؤلم|تؤلم",
        "injury or splash": r"ضرب|رذاذ|إصاب|أصيب|رُش",
    },
}
TODAY = {"en": r"\btoday\b", "de": r"\bheute\b", "ar": r"اليوم"}
BLAME = {
    "en": r"do not blame",
    "de": r"(?:nicht|keinesfalls) (?:auf|der|an|mit) .{0,40}brille|brille .{0,30}nicht",
    "ar": r"نظار",
}

# Emergency numbers of countries; from memory, checked yearly by whoever keeps this table.
EMERGENCY = {
    "GB": {"999", "112"},
    "IE": {"999", "112"},
    "US": {"911"},
    "CA": {"911"},
    "DE": {"112"},
    "AT": {"112", "144"},
    "CH": {"112", "144"},
    "FR": {"112", "15"},
}

# What the paper for the parcel carries besides the prescription (device law and common practice).
DUTY = {
    "en": {
        "device line": r"medical device",
        "intended use": r"everyday (?:glasses|wear)|intended (?:use|for)|made to correct|not eye protection",
        "incident line": r"incident|report .{0,60}(?:maker|authority|harm|injur)",
    },
    "de": {
        "device line": r"medizinprodukt",
        "intended use": r"alltagsbrille|zweckbestimmung|kein augenschutz|kein schutz",
        "incident line": r"vorkommnis|melden .{0,60}(?:behörde|hersteller)",
    },
    "ar": {"device line": r"جهاز طبي", "intended use": r"اليومي|الغرض", "incident line": r"حادث|حوادث|بلاغ|أبلغ"},
}
LEGAL_PROFILE = r"\bMDR\b|2017/745|2002 No|class I\b|Klasse I\b|801\.410|conform|Konformität|مطابق"

# Terms of the trade, and how an explanation of each may begin after the term itself.
TERMS = {
    "en": {
        "sphere": r"\bspheres?\b",
        "cylinder": r"\bcylinders?\b",
        "axis": r"\baxis\b|\baxes\b",
        "addition": r"\baddition\b",
        "prism": r"\bprisms?\b",
        "base": r"\bbase (?:in|out|up|down)\b",
        "dioptre": r"\bdioptres?\b|\bdiopters?\b|(?<=\d) D\b",
        "prism dioptre": r"\bprism dioptres?\b|Δ",
        "PD": r"\bPD\b",
        "index": r"\bindex\b",
        "UV": r"\bUV\b|\bultraviolet\b",
        "nm": r"(?<=\d) nm\b|\bnanometres?\b",
        "category": r"\bcategory\b",
        "progressive": r"\bprogressive\b",
        "bifocal": r"\bbifocal\b",
        "polycarbonate": r"\bpolycarbonate\b",
        "hard resin": r"\bhard resin\b",
        "pupil": r"\bpupils?\b",
    },
    "de": {
        "sphere": r"\bSphäre\b",
        "cylinder": r"\bZylinders?\b",
        "axis": r"\bAchsen?\b",
        "addition": r"\bAddition\b",
        "prism": r"\bPrism(?:a|en|as)\b",
        "base": r"\bBasis (?:innen|außen|oben|unten)\b",
        "dioptre": r"\bDioptrien?\b|(?<=\d) D\b|\bdpt\b",
        "prism dioptre": r"\bPrismendioptrien?\b|Δ",
        "PD": r"\bPD\b",
        "index": r"\bBrechzahl\b|\bIndex\b",
        "UV": r"\bUV\b|\bultraviolett\w*\b",
        "nm": r"(?<=\d) nm\b|\bNanometern?\b",
        "category": r"\bKategorie\b",
        "progressive": r"\bGleitsicht\w*\b",
        "bifocal": r"\bBifokal\w*\b|\bZweistärken\w*\b",
        "polycarbonate": r"\bPolycarbonat\b",
        "pupil": r"\bPupillen?\b",
    },
}
SHORT_FORMS = {"dioptre": "(D)", "prism dioptre": "(Δ)", "UV": "(UV)", "nm": "(nm)", "PD": "(PD)"}
TOLD_AS = {
    "base": r"\b(?:base|basis) (?:is|ist)\b|\b(?:base|basis) \w+,[^.]{0,40} (?:tells?|sagt|sagen)\b"
}  # how an explanation names the term, where use and explanation differ
EVERYDAY = {"pupil", "polycarbonate", "hard resin"}  # words for a thing that a picture or a sentence makes plain

# Words that the termbase does not know: another name for something that has one already.
NOT_TERMBASE = {
    "en": r"\bvarifocals?\b|\bphotochrom|\bdiopters?\b|\bSPH\b|\bCYL\b|\bOD\b|\bOS\b|\bmultifocal"
    r"|\bspectacles?\b|\bastigmat",
    "de": r"\bphotochrom|\bDioptrin|\bSPH\b|\bCYL\b|\bOD\b|\bOS\b|\bLesezusatz",
    "ar": r"\bSPH\b|\bCYL\b|\bOD\b|\bOS\b",
}
INFORMAL = {"de": r"\b(?:du|dir|dich|dein\w*|euch|euer|eure\w*)\b"}

# A few words of English that no other language here has; names and citations are left out before looking.
ENGLISH = r"\b(?:the|your|you|with|and|glasses|lenses|they|this|that|when|from|are|have|look|through|lens|eyes|of)\b"

COATINGS = {
    "hard": r"hard(?:ened)? coat|scratch|hard layer|hardening",
    "anti-reflection": r"reflection",
    "easy-clean": r"easy\W{1,2}clean|easier to clean|repels",
    "anti-static": r"static|dust",
    "anti-fog": r"\bfog|mist",
    "uv-filter": r"ultraviolet|\bUV\b",
    "blue-filter": r"\bblue\b",
    "mirror": r"mirror",
    "polarising": r"polari[sz]",
}
FRAMES = {
    "acetate": "acetate|plastic frame",
    "nylon": "nylon|plastic frame",
    "metal": "metal",
    "titanium": "titanium|this metal",
    "half-rim": "half-rim|thread|nylon cord",
    "rimless": "rimless|lenses hold",
}
