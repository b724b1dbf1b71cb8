package plan

import "reflect"

// heldBytes is about how much memory a plan holds by itself, in bytes: all that
// Clone copies. Texts are counted though copies share them, so that it is rather
// too much than too little.
func (p *Plan) heldBytes() int {
	v := reflect.ValueOf(*p)
	n := int(v.Type().Size())
	for i := range v.NumField() {
		if v.Type().Field(i).IsExported() { // the others are the file as it was read, held once for all
			n += below(v.Field(i))
		}
	}
	return n
}

// below is what a value points to, in bytes.
func below(v reflect.Value) int {
	n := 0
	switch v.Kind() {
	case reflect.String:
		return v.Len()
	case reflect.Slice:
		n = v.Cap() * int(v.Type().Elem().Size())
		for i := range v.Len() {
			n += below(v.Index(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			n += below(v.Index(i))
		}
	case reflect.Map:
		for i := v.MapRange(); i.Next(); {
			n += int(v.Type().Key().Size()+v.Type().Elem().Size()) + below(i.Key()) + below(i.Value())
		}
	case reflect.Pointer:
		if !v.IsNil() {
			n = int(v.Type().Elem().Size()) + below(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				n += below(v.Field(i))
			}
		}
	}
	return n
}
