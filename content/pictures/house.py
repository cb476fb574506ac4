def home(): return ""
def icon(): return ""
